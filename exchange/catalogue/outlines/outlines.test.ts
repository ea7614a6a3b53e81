import type { Polyline } from '@gapline/core/catalogue/catalogue.ts';
import type { Outcome } from '@gapline/core/measure/outcome.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../../catalogues/make-demo.ts';
import { addOutline } from './add-outline.ts';
import { checkScale } from './check-scale.ts';
import { arcPoints, bulgePoints, cubicPoints, SAGITTA, type XY } from './flatten.ts';
import { readDxf } from './read-dxf.ts';
import { type OutlinePart, type OutlineView, readOutlines, statedSize, withOutlines } from './read-outlines.ts';
import { readPolylines } from './read-polylines.ts';
import { readSvgPath } from './read-svg-path.ts';

const catalogue = demoCatalogue();
const PARTS: readonly OutlinePart[] = [
  { kind: 'femur', part: catalogue.femurs[3]! },
  { kind: 'tray', part: catalogue.trays[2]! },
  { kind: 'insert', part: catalogue.inserts[5]! },
];
const VIEWS: readonly OutlineView[] = ['coronal', 'sagittal'];
const all = PARTS.flatMap((of) => VIEWS.map((view) => ({ of, view, lines: of.part.outlines?.[view] ?? [] })));

const given = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok) throw new Error(outcome.reason.message);
  return outcome.value;
};
const codeOf = <T>(outcome: Outcome<T>): string => (outcome.ok ? 'ok' : outcome.reason.code);
const mendOf = <T>(outcome: Outcome<T>): string => (outcome.ok ? '' : (outcome.reason.mend ?? ''));

/** A drawing as other programs write it, group codes as the published DXF reference of release 12 has them. */
const dxf = (entities: string, unit = ''): string =>
  `0\nSECTION\n2\nHEADER\n${unit ? `9\n$INSUNITS\n70\n${unit}\n` : ''}0\nENDSEC\n0\nSECTION\n2\nENTITIES\n${entities}0\nENDSEC\n0\nEOF\n`;
const light = (line: Polyline): string =>
  `0\nLWPOLYLINE\n8\n0\n90\n${line.length}\n70\n1\n${line.map(([x, y]) => `10\n${x}\n20\n${y}\n`).join('')}`;
const heavy = (line: Polyline): string =>
  `0\nPOLYLINE\n66\n1\n70\n1\n${line.map(([x, y]) => `0\nVERTEX\n10\n${x}\n20\n${y}\n`).join('')}0\nSEQEND\n`;
const strokes = (line: Polyline): string =>
  line
    .map(([x, y], i) => {
      const [x2, y2] = line[(i + 1) % line.length] as XY;
      // Every other stroke is drawn backwards.
      return i % 2
        ? `0\nLINE\n10\n${x2}\n20\n${y2}\n11\n${x}\n21\n${y}\n`
        : `0\nLINE\n10\n${x}\n20\n${y}\n11\n${x2}\n21\n${y2}\n`;
    })
    .join('');
const path = (line: Polyline): string => `M${line.map(([x, y]) => `${x},${-y}`).join(' ')}z`;

const isNear = (a: readonly Polyline[], b: readonly Polyline[]): void => {
  expect(a.map((l) => l.length)).toEqual(b.map((l) => l.length));
  a.flat().forEach(([x, y], i) => {
    const [bx, by] = b.flat()[i] as XY;
    expect(Math.hypot(x - bx, y - by)).toBeLessThan(1e-6);
  });
};

describe('outlines from outside', () => {
  test('GAP-45 the example system comes back from JSON, DXF and SVG as it was, wherever the drawing stood', () => {
    for (const { of, view, lines } of all) {
      const moved = lines.map((line) => line.map(([x, y]): XY => [x + 120, y - 45]));
      const texts = {
        'a.json': JSON.stringify({ unit: 'mm', lines: moved }),
        'a.dxf': dxf(moved.map(light).join('')),
        'b.DXF': dxf(moved.map(heavy).join('').replaceAll('\n', '\r\n'), '4'),
        'a.svg': `<svg xmlns="http://www.w3.org/2000/svg">${moved.map((l) => `<path class="x" d="${path(l)}"/>`).join('')}</svg>`,
      };
      const own = given(readOutlines(JSON.stringify(lines), { fileName: 'own.json', of, view }));
      for (const [fileName, text] of Object.entries(texts))
        isNear(given(readOutlines(text, { fileName, of, view })), own);
      const put = withOutlines(catalogue, { of, view, lines: own });
      expect(put).not.toBe(catalogue);
    }
  });

  test('GAP-45 a wrong scale is refused, with the factor that would fit and the mistake it looks like', () => {
    const of = PARTS[1]!;
    const scaled = (by: number) =>
      JSON.stringify((of.part.outlines?.coronal ?? []).map((line) => line.map(([x, y]) => [x * by, y * by])));
    const read = (by: number) => readOutlines(scaled(by), { fileName: 't.json', of, view: 'coronal' });
    expect(codeOf(read(1.005))).toBe('ok');
    expect(codeOf(read(1.05))).toBe('outline-scale');
    expect(mendOf(read(1 / 25.4))).toBe(
      'Scale the drawing by 25.4: it seems to be drawn in inches, or correct the part.',
    );
    expect(mendOf(read(0.1))).toContain('centimetres');
    expect(mendOf(read(2))).toContain('Scale the drawing by 0.5');
    const [w, h] = [statedSize(of, 'coronal').widthMm, statedSize(of, 'coronal').heightMm];
    const flat = JSON.stringify([
      [
        [0, 0],
        [w, 0],
        [w, Number(h) / 3],
        [0, Number(h) / 3],
      ],
    ]);
    expect(mendOf(readOutlines(flat, { fileName: 't.json', of, view: 'coronal' }))).toContain('different scales');
    expect(
      codeOf(
        checkScale(
          [
            [
              [0, 0],
              [1, 0],
              [1, 1],
            ],
          ],
          {},
        ),
      ),
    ).toBe('outline-size-not-stated');
  });

  test('strokes in any direction are put end to end; units of the header count', () => {
    const square: Polyline = [
      [0, 0],
      [10, 0],
      [10, 5],
      [0, 5],
    ];
    const [line] = given(readDxf(dxf(strokes(square), '5')));
    expect(line).toHaveLength(5);
    expect(Math.max(...(line ?? []).map(([x]) => x))).toBe(100);
  });

  test('a bulge of 1 is a half circle, 0 a straight line: the DXF reference defines it as the tangent of a quarter of the angle', () => {
    const half = bulgePoints([0, 0], [10, 0], 1);
    // Counter-clockwise from left to right runs below the chord.
    for (const [x, y] of half) expect(Math.hypot(x - 5, y)).toBeCloseTo(5, 9);
    expect(Math.min(...half.map(([, y]) => y))).toBeCloseTo(-5, 1);
    expect(bulgePoints([0, 0], [3, 4], 0)).toEqual([[3, 4]]);
    const turned = given(readDxf(dxf('0\nLWPOLYLINE\n90\n2\n70\n1\n10\n0\n20\n0\n42\n1\n10\n10\n20\n0\n42\n1\n')));
    for (const [x, y] of turned[0] ?? []) expect(Math.hypot(x - 5, y)).toBeCloseTo(5, 9);
  });

  test('arcs of DXF run counter-clockwise from their first angle; every chord keeps within the sagitta', () => {
    const [arc] = given(readDxf(dxf('0\nARC\n10\n1\n20\n2\n40\n30\n50\n350\n51\n80\n')));
    const [first, last] = [arc?.[0], arc?.at(-1)] as [XY, XY];
    expect(first[0]).toBeCloseTo(1 + 30 * Math.cos((-10 * Math.PI) / 180), 9);
    expect(last[1]).toBeCloseTo(2 + 30 * Math.sin((80 * Math.PI) / 180), 9);
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 500, noNaN: true }),
        fc.double({ min: -6.28, max: 6.28, noNaN: true }),
        (radius, sweepRad) => {
          const points = arcPoints({ centre: [0, 0], radius, fromRad: 1, sweepRad });
          points.slice(1).forEach((p, i) => {
            const q = points[i] as XY;
            expect(Math.hypot((p[0] + q[0]) / 2, (p[1] + q[1]) / 2)).toBeGreaterThan(radius - SAGITTA - 1e-9);
          });
        },
      ),
      { numRuns: 100, seed: 7 },
    );
  });

  test('SVG: relative and absolute commands, curves and arcs after SVG 1.1 draw the same circle', () => {
    const k = 0.5522847498;
    const circles = [
      'M 10 0 A 10 10 0 1 1 -10 0 A 10 10 0 1 1 10 0 Z',
      'm10,0a10,10 0 0 1 -20,0a10,10,0,0,1,20,0z',
      `M10 0C10 ${10 * k} ${10 * k} 10 0 10S-10 ${10 * k}-10 0S${-10 * k}-10 0-10S10 ${-10 * k} 10 0Z`,
    ];
    for (const d of circles) {
      const [line] = given(readSvgPath(d));
      expect(line?.length).toBeGreaterThan(20);
      for (const [x, y] of line ?? []) expect(Math.abs(Math.hypot(x, y) - 10)).toBeLessThan(0.01);
    }
    expect(given(readSvgPath('M0 0h4v-3H0Z'))).toEqual([
      [
        [0, 0],
        [4, 0],
        [4, 3],
        [0, 3],
        [0, 0],
      ],
    ]);
    expect(given(readSvgPath('M0 0Q2 4 4 0T8 0'))[0]?.at(-1)).toEqual([8, 0]);
    const inch = '<svg width="25.4mm" height="25.4mm" viewBox="0 0 96 96"><path d="M0 0H96V96H0Z"/></svg>';
    expect(Math.max(...(given(readSvgPath(inch))[0] ?? []).map(([x]) => x))).toBeCloseTo(25.4, 9);
  });

  test('a cubic curve is cut so that no chord lies off by more than the sagitta', () => {
    const curve = [
      [0, 0],
      [30, 60],
      [60, -60],
      [90, 0],
    ] as const;
    const points: XY[] = [curve[0], ...cubicPoints(curve)];
    const at = (t: number): XY => {
      const f = (k: 0 | 1) =>
        (1 - t) ** 3 * curve[0][k] +
        3 * (1 - t) ** 2 * t * curve[1][k] +
        3 * (1 - t) * t * t * curve[2][k] +
        t ** 3 * curve[3][k];
      return [f(0), f(1)];
    };
    points.slice(1).forEach((p, i) => {
      const q = points[i] as XY;
      const [x, y] = at((i + 0.5) / (points.length - 1));
      const off =
        Math.abs((p[0] - q[0]) * (q[1] - y) - (q[0] - x) * (p[1] - q[1])) / Math.hypot(p[0] - q[0], p[1] - q[1]);
      expect(off).toBeLessThan(SAGITTA);
    });
  });

  test('GAP-45 a drawing becomes the outline of one part in one view; sizes stated by hand go before the catalogue', () => {
    const { ref, outlines } = catalogue.trays[2]!;
    const drawing = { fileName: 't.dxf', text: dxf(outlines.coronal.map(light).join('')) };
    const added = given(addOutline(catalogue, { ref, view: 'coronal', drawing }));
    isNear(
      added.trays[2]!.outlines.coronal,
      given(readOutlines(drawing.text, { ...drawing, of: PARTS[1]!, view: 'coronal' })),
    );
    expect({ ...added, trays: catalogue.trays }).toEqual(catalogue);
    expect(codeOf(addOutline(catalogue, { ref, view: 'coronal', drawing, sizes: [50] }))).toBe('outline-scale');
    expect(codeOf(addOutline(catalogue, { ref: 'X', view: 'coronal', drawing }))).toBe('part-unknown');
    expect(codeOf(addOutline(catalogue, { ref, view: 'skyline', drawing }))).toBe('view-unknown');
  });

  test('what cannot be read is refused by name, with the mend', () => {
    const of = PARTS[0]!;
    const read = (text: string, fileName: string) => codeOf(readOutlines(text, { fileName, of, view: 'coronal' }));
    expect(read('[]', 'a.txt')).toBe('outline-format');
    expect(read('{', 'a.json')).toBe('not-json');
    expect(read('{"unit":"inch","lines":[[[0,0],[1,1]]]}', 'a.json')).toBe('outline-unit');
    expect(read('[[[0,0],["1",2]]]', 'a.json')).toBe('outline-shape');
    expect(read('hello', 'a.dxf')).toBe('dxf-unreadable');
    expect(read(dxf('0\nSPLINE\n10\n0\n'), 'a.dxf')).toBe('dxf-entity');
    expect(read(dxf('', '4'), 'a.dxf')).toBe('dxf-empty');
    expect(read(dxf('0\nLINE\n10\n0\n20\n0\n', '8'), 'a.dxf')).toBe('dxf-unit');
    expect(read(dxf('0\nLINE\n10\n0\n20\nx\n11\n3\n21\n4\n'), 'a.dxf')).toBe('dxf-number');
    expect(read('<svg><g transform="scale(2)"><path d="M0 0H3V3Z"/></g></svg>', 'a.svg')).toBe('svg-transform');
    expect(read('<svg></svg>', 'a.svg')).toBe('svg-empty');
    expect(read('M0 0 L5', 'a.svg')).toBe('svg-count');
    expect(read('M0 0 L5 5 #', 'a.svg')).toBe('svg-sign');
    expect(read('M0 0 L67.5 0', 'a.svg')).toBe('outline-open');
    const said = readOutlines(dxf('0\nSPLINE\n'), { fileName: 'f.dxf', of, view: 'coronal' });
    expect(said.ok ? '' : said.reason.message).toBe('f.dxf: The drawing holds SPLINE, which is not read.');
  });

  test('no text makes a reader throw, and no coordinate that is not finite leaves one', () => {
    const readers = [readPolylines, readDxf, readSvgPath];
    const scraps = fc.array(
      fc.constantFrom(
        'M',
        'a',
        'Z',
        ' ',
        '1',
        '-2.5e3',
        '0',
        '\n',
        '10',
        'LINE',
        'SECTION',
        '[',
        ']',
        ',',
        '<svg>',
        '1e999',
      ),
      { maxLength: 40 },
    );
    fc.assert(
      fc.property(scraps, (pieces) => {
        for (const reader of readers)
          for (const separator of ['', '\n']) {
            const read = reader(pieces.join(separator));
            if (read.ok) expect(read.value.flat(2).every(Number.isFinite)).toBe(true);
          }
      }),
      { numRuns: 300, seed: 11 },
    );
  });
});
