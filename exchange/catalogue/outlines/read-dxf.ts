import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import { chained } from './chain.ts';
import { arcPoints, bulgePoints, type XY } from './flatten.ts';

/** Code and value of one group, after the published DXF reference: two lines of text each. */
type Group = readonly [code: number, value: string];

interface Entity {
  readonly kind: string;
  readonly groups: readonly Group[];
}

/** Millimetres a drawing unit, by $INSUNITS; 0 = not stated. */
const UNIT_MM: Readonly<Record<string, number>> = { '0': 1, '1': 25.4, '4': 1, '5': 10, '6': 1000 };

/** What is drawn; the rest of a drawing's entities say nothing of an outline and are refused by name. */
const DRAWN = ['LINE', 'LWPOLYLINE', 'POLYLINE', 'ARC', 'CIRCLE'];
const WITH_IT = ['VERTEX', 'SEQEND'];

const fault = (code: string, message: string, mend: string) => cannot({ code, message, mend });

/**
 * Lines of a drawing in DXF, release 12 text: LINE, POLYLINE, LWPOLYLINE (with bulges), ARC and CIRCLE of its ENTITIES,
 * pieces that meet put end to end. Millimetres, x right, y up. Blocks, splines and whatever else draws are refused by name.
 */
export function readDxf(text: string): Outcome<readonly (readonly XY[])[]> {
  const groups = groupsOf(text);
  if (!groups)
    return fault(
      'dxf-unreadable',
      'This is no DXF text: codes and values do not alternate.',
      'Save it as DXF R12, text.',
    );
  const unit = valueAfter(groups, '$INSUNITS') ?? '0';
  const mm = UNIT_MM[unit];
  if (mm === undefined)
    return fault('dxf-unit', `The drawing is in unit ${unit}, which is not read.`, 'Save it in millimetres.');
  const entities = entitiesOf(groups);
  const foreign = entities.find(({ kind }) => !DRAWN.includes(kind) && !WITH_IT.includes(kind));
  if (foreign)
    return fault(
      'dxf-entity',
      `The drawing holds ${foreign.kind}, which is not read.`,
      'Explode blocks and turn curves into polylines, then save it anew.',
    );
  const pieces = piecesOf(entities);
  if (pieces.length === 0) return fault('dxf-empty', 'The drawing holds no line.', 'Draw the outline as polylines.');
  if (pieces.some((p) => p.some(([x, y]) => !Number.isFinite(x) || !Number.isFinite(y))))
    return fault('dxf-number', 'A coordinate of the drawing is no number.', 'Save the drawing anew.');
  return ok(chained(pieces).map((line) => line.map(([x, y]): XY => [x * mm, y * mm])));
}

function groupsOf(text: string): readonly Group[] | null {
  const lines = text.replace(/\r\n?/g, '\n').replace(/\n+$/, '').split('\n');
  if (lines.length < 4 || lines.length % 2 !== 0) return null;
  const groups: Group[] = [];
  for (let i = 0; i < lines.length; i += 2) {
    const code = (lines[i] ?? '').trim();
    if (!/^-?\d+$/.test(code)) return null;
    groups.push([Number(code), (lines[i + 1] ?? '').trim()]);
  }
  return groups;
}

function valueAfter(groups: readonly Group[], name: string): string | undefined {
  const at = groups.findIndex(([code, value]) => code === 9 && value === name);
  return at < 0 ? undefined : groups[at + 1]?.[1];
}

function entitiesOf(groups: readonly Group[]): Entity[] {
  const start = groups.findIndex(
    ([code, value], i) => code === 2 && value === 'ENTITIES' && groups[i - 1]?.[1] === 'SECTION',
  );
  if (start < 0) return [];
  const found: { kind: string; groups: Group[] }[] = [];
  for (const group of groups.slice(start + 1)) {
    if (group[0] === 0) {
      if (group[1] === 'ENDSEC') break;
      found.push({ kind: group[1], groups: [] });
    } else found.at(-1)?.groups.push(group);
  }
  return found;
}

const number = ({ groups }: Entity, code: number): number => {
  const value = groups.find(([c]) => c === code)?.[1];
  return value === undefined ? Number.NaN : Number(value);
};
const orZero = (x: number): number => (Number.isNaN(x) ? 0 : x);

interface Corner {
  readonly at: XY;
  readonly bulge: number;
}

function piecesOf(entities: readonly Entity[]): XY[][] {
  const pieces: XY[][] = [];
  entities.forEach((e, i) => {
    const centre: XY = [number(e, 10), number(e, 20)];
    if (e.kind === 'LINE') pieces.push([centre, [number(e, 11), number(e, 21)]]);
    if (e.kind === 'CIRCLE')
      pieces.push(arcPoints({ centre, radius: number(e, 40), fromRad: 0, sweepRad: 2 * Math.PI }));
    if (e.kind === 'ARC') {
      const [from, to] = [number(e, 50), number(e, 51)];
      const sweep = (((to - from) % 360) + 360) % 360 || 360;
      const rad = Math.PI / 180;
      pieces.push(arcPoints({ centre, radius: number(e, 40), fromRad: from * rad, sweepRad: sweep * rad }));
    }
    const closed = (orZero(number(e, 70)) & 1) === 1;
    if (e.kind === 'LWPOLYLINE') pieces.push(through(cornersIn(e), closed));
    if (e.kind === 'POLYLINE') pieces.push(through(cornersAfter(entities, i), closed));
  });
  return pieces.filter((p) => p.length > 1);
}

/** Corners of a light polyline: every 10 begins one. */
function cornersIn({ groups }: Entity): Corner[] {
  const corners: { at: [number, number]; bulge: number }[] = [];
  for (const [code, value] of groups) {
    const last = corners.at(-1);
    if (code === 10) corners.push({ at: [Number(value), Number.NaN], bulge: 0 });
    if (code === 20 && last) last.at[1] = Number(value);
    if (code === 42 && last) last.bulge = Number(value);
  }
  return corners;
}

/** Corners of a polyline: the VERTEX entities up to its SEQEND. */
function cornersAfter(entities: readonly Entity[], at: number): Corner[] {
  const after = entities.slice(at + 1);
  const end = after.findIndex(({ kind }) => kind !== 'VERTEX');
  return after
    .slice(0, end < 0 ? after.length : end)
    .map((v) => ({ at: [number(v, 10), number(v, 20)], bulge: orZero(number(v, 42)) }));
}

function through(corners: readonly Corner[], closed: boolean): XY[] {
  const [first] = corners;
  if (!first) return [];
  const line: XY[] = [first.at];
  corners.forEach((corner, i) => {
    const next = corners[i + 1] ?? (closed ? first : undefined);
    if (next) line.push(...bulgePoints(corner.at, next.at, corner.bulge));
  });
  return line;
}
