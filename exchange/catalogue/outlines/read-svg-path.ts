import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import { arcPoints, cubicPoints, quadraticPoints, type XY } from './flatten.ts';

const fault = (code: string, message: string, mend: string) => cannot({ code, message, mend });

/** Numbers that each command takes in one go. */
const TAKES: Readonly<Record<string, number>> = { M: 2, L: 2, H: 1, V: 1, C: 6, S: 4, Q: 4, T: 2, A: 7, Z: 0 };

const TOKEN = /([MmLlHhVvCcSsQqTtAaZz])|([-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?)|([\s,]+)|(.)/g;

/**
 * Lines of an SVG path (SVG 1.1, section 8.3): path data by itself, or a whole file, of which every `path` is read. One unit is
 * a millimetre, unless the file states its width in mm beside a viewBox. SVG counts y downwards: it is turned round.
 * Transforms are refused by name, since an outline that was turned or scaled by one would be read wrongly.
 */
export function readSvgPath(text: string): Outcome<readonly (readonly XY[])[]> {
  if (!/<svg[\s>]/i.test(text)) return linesOf(text, 1);
  if (/\stransform\s*=/i.test(text))
    return fault(
      'svg-transform',
      'The file moves its paths by a transform.',
      'Apply the transforms, then save it anew.',
    );
  const paths = [...text.matchAll(/<path\b[^>]*?\sd\s*=\s*(?:"([^"]*)"|'([^']*)')/gi)].map((m) => m[1] ?? m[2] ?? '');
  if (paths.length === 0) return fault('svg-empty', 'The file holds no path.', 'Turn the outline into a path.');
  const lines: (readonly XY[])[] = [];
  for (const path of paths) {
    const read = linesOf(path, unitOf(text));
    if (!read.ok) return read;
    lines.push(...read.value);
  }
  return ok(lines);
}

/** Millimetres a unit: the stated width over that of the viewBox; 1 where the file does not state both. */
function unitOf(text: string): number {
  const head = /<svg\b[^>]*>/i.exec(text)?.[0] ?? '';
  const width = /\swidth\s*=\s*["']([\d.]+)mm["']/i.exec(head)?.[1];
  const box = /\sviewBox\s*=\s*["']\s*[-\d.]+[\s,]+[-\d.]+[\s,]+([\d.]+)[\s,]+[\d.]+\s*["']/i.exec(head)?.[1];
  const unit = width && box ? Number(width) / Number(box) : 1;
  return Number.isFinite(unit) && unit > 0 ? unit : 1;
}

function linesOf(data: string, mm: number): Outcome<readonly (readonly XY[])[]> {
  const pen = new Pen();
  let command = '';
  let numbers: number[] = [];
  const tokens = [...data.matchAll(TOKEN)];
  for (const [, letter, number, , other] of tokens) {
    if (other !== undefined)
      return fault('svg-sign', `“${other}” is no part of path data.`, 'Give the path data alone, or the whole file.');
    if (letter !== undefined) {
      if (numbers.length > 0 || (command === '' && letter.toUpperCase() !== 'M')) return miscounted(command || letter);
      command = letter;
      if (letter.toUpperCase() === 'Z') pen.close();
    }
    if (number === undefined) continue;
    numbers.push(Number(number));
    const takes = TAKES[command.toUpperCase()] ?? 0;
    if (takes === 0) return miscounted(command);
    if (numbers.length < takes) continue;
    pen.draw(command, numbers);
    numbers = [];
    // Further pairs after a move are lines.
    if (command === 'M') command = 'L';
    if (command === 'm') command = 'l';
  }
  if (numbers.length > 0) return miscounted(command);
  const lines = pen.lines.filter((line) => line.length > 1);
  if (lines.length === 0) return fault('svg-empty', 'The path draws nothing.', 'Draw the outline as a closed path.');
  return ok(lines.map((line) => line.map(([x, y]): XY => [x * mm, y === 0 ? 0 : -y * mm])));
}

const miscounted = (command: string) =>
  fault(
    'svg-count',
    `The command ${command || 'at the start'} of the path has not the numbers that it needs.`,
    'Save the path anew.',
  );

/** Draws command by command. */
class Pen {
  readonly lines: XY[][] = [];
  private at: XY = [0, 0];
  private start: XY = [0, 0];
  /** Last control point, for the smooth commands; null after any other. */
  private cubic: XY | null = null;
  private quadratic: XY | null = null;

  close(): void {
    this.to([this.start]);
    this.cubic = null;
    this.quadratic = null;
  }

  private to(points: readonly XY[]): void {
    let line = this.lines.at(-1);
    // After a closed line the next one begins where that began.
    if (!line) {
      line = [this.at];
      this.lines.push(line);
    }
    line.push(...points);
    this.at = points.at(-1) ?? this.at;
  }

  draw(command: string, n: readonly number[]): void {
    const [ox, oy] = command === command.toLowerCase() ? this.at : [0, 0];
    const p = (i: number): XY => [ox + (n[i] ?? 0), oy + (n[i + 1] ?? 0)];
    const mirrored = (c: XY | null): XY => (c ? [2 * this.at[0] - c[0], 2 * this.at[1] - c[1]] : this.at);
    let [cubic, quadratic]: (XY | null)[] = [null, null];
    switch (command.toUpperCase()) {
      case 'M':
        this.at = p(0);
        this.start = this.at;
        this.lines.push([this.at]);
        break;
      case 'L':
        this.to([p(0)]);
        break;
      case 'H':
        this.to([[ox + (n[0] ?? 0), this.at[1]]]);
        break;
      case 'V':
        this.to([[this.at[0], oy + (n[0] ?? 0)]]);
        break;
      case 'C':
      case 'S': {
        const smooth = command.toUpperCase() === 'S';
        const first = smooth ? mirrored(this.cubic) : p(0);
        cubic = smooth ? p(0) : p(2);
        this.to(cubicPoints([this.at, first, cubic, smooth ? p(2) : p(4)]));
        break;
      }
      case 'Q':
      case 'T': {
        const smooth = command.toUpperCase() === 'T';
        quadratic = smooth ? mirrored(this.quadratic) : p(0);
        this.to(quadraticPoints([this.at, quadratic, smooth ? p(0) : p(2)]));
        break;
      }
      case 'A':
        this.to(ellipsePoints(this.at, n, [ox + (n[5] ?? 0), oy + (n[6] ?? 0)]));
    }
    this.cubic = cubic ?? null;
    this.quadratic = quadratic ?? null;
  }
}

/** An elliptical arc by its ends, after SVG 1.1, appendix F.6.5; the first point is left out. */
function ellipsePoints(from: XY, n: readonly number[], to: XY): XY[] {
  const [tilt, large, sweep] = [((n[2] ?? 0) * Math.PI) / 180, n[3] !== 0, n[4] !== 0];
  let [rx, ry] = [Math.abs(n[0] ?? 0), Math.abs(n[1] ?? 0)];
  if (rx === 0 || ry === 0 || (from[0] === to[0] && from[1] === to[1])) return [to];
  const [c, s] = [Math.cos(tilt), Math.sin(tilt)];
  const [dx, dy] = [(from[0] - to[0]) / 2, (from[1] - to[1]) / 2];
  const [x, y] = [c * dx + s * dy, c * dy - s * dx];
  // Radii too small for the ends are scaled up.
  const over = Math.sqrt((x / rx) ** 2 + (y / ry) ** 2);
  if (over > 1) [rx, ry] = [rx * over, ry * over];
  const [a, b] = [(rx * y) ** 2 + (ry * x) ** 2, (rx * ry) ** 2];
  const k = Math.sqrt(Math.max(0, b - a) / a) * (large === sweep ? -1 : 1);
  const [mx, my] = [(k * rx * y) / ry, (-k * ry * x) / rx];
  const angle = (px: number, py: number) => Math.atan2((py - my) / ry, (px - mx) / rx);
  const fromRad = angle(x, y);
  let sweepRad = angle(-x, -y) - fromRad;
  if (sweep && sweepRad < 0) sweepRad += 2 * Math.PI;
  if (!sweep && sweepRad > 0) sweepRad -= 2 * Math.PI;
  const radius = Math.max(rx, ry);
  const round = arcPoints({ centre: [0, 0], radius, fromRad, sweepRad });
  const middle: XY = [c * mx - s * my + (from[0] + to[0]) / 2, s * mx + c * my + (from[1] + to[1]) / 2];
  return [
    ...round.slice(1, -1).map(([px, py]): XY => {
      const [ex, ey] = [(px * rx) / radius, (py * ry) / radius];
      return [middle[0] + c * ex - s * ey, middle[1] + s * ex + c * ey];
    }),
    to,
  ];
}
