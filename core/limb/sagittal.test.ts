import { describe, expect, test } from 'vitest';
import { knownCase } from '../landmarks/known-knee.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import { lineThrough } from '../plane/line.ts';
import { point } from '../plane/point.ts';
import { componentFlexion } from './femoral-flexion.ts';
import { flagsOf, lineOf, measuredValue } from './lines-of-a-knee.ts';
import { measureCase } from './measure-knee.ts';
import { readPatella } from './patella-baja.ts';
import { blackburnePeel, insallSalvati } from './patellar-height.ts';
import { posteriorCondylarOffset, posteriorCondylarOffsetRatio } from './posterior-condylar-offset.ts';
import { posteriorSlope } from './tibial-slope.ts';

const P = (x: number, y: number) => point('sagittal', x, y);
const line = (a: readonly [number, number], b: readonly [number, number]) => {
  const l = lineThrough(P(...a), P(...b));
  if (!l.ok) throw new Error(l.reason.code);
  return l.value;
};
const evidence = knownCase();
const lines = measureCase(evidence);
/** The case without some marks of the lateral film. */
const without = (...ids: readonly LandmarkId[]) =>
  measureCase({ ...evidence, marks: evidence.marks.filter((m) => m.film !== 'lat' || !ids.includes(m.landmark)) });

describe('slope and flexion', () => {
  test('LIMB-14 a plateau that falls to the back slopes +, one that falls to the front -', () => {
    const axis = line([0, -150], [0, -50]).along;
    expect(posteriorSlope(line([-20, -2], [20, 2]).along, axis)).toBeCloseTo(5.7106, 4);
    expect(posteriorSlope(line([-20, 2], [20, -2]).along, axis)).toBeCloseTo(-5.7106, 4);
  });
  test('LIMB-14 without the posterior cortex the anterior one serves, named and with its bias; then the posterior one', () => {
    expect(measuredValue(lines, 'tibial-slope', 'right')).toBeCloseTo(3.001, 3);
    const anterior = without('tibial-sagittal-distal-posterior');
    expect(lineOf(anterior, 'tibial-slope', 'right').variant).toBe('axis: anterior cortex');
    expect(flagsOf(anterior, 'tibial-slope', 'right')).toContain('axis-biased');
    // The tapering shaft of this example makes the anterior cortex lean by 1.72 degrees: more slope, as published.
    expect(measuredValue(anterior, 'tibial-slope', 'right')).toBeGreaterThan(
      measuredValue(lines, 'tibial-slope', 'right'),
    );
    const posterior = without('tibial-sagittal-distal-anterior');
    expect(lineOf(posterior, 'tibial-slope', 'right').variant).toContain('posterior cortex');
    expect(measuredValue(posterior, 'tibial-slope', 'right')).toBeLessThan(
      measuredValue(lines, 'tibial-slope', 'right'),
    );
  });
  test('LIMB-15 the front of the component turned distally is flexion (+)', () => {
    const axis = line([0, 90], [0, 180]).along;
    expect(componentFlexion(line([-10, 9], [10, 8]).along, axis)).toBeCloseTo(2.8624, 4);
    expect(componentFlexion(line([-10, 8], [10, 9]).along, axis)).toBeCloseTo(-2.8624, 4);
    expect(measuredValue(lines, 'femoral-component-flexion', 'right')).toBeCloseTo(1.999, 3);
  });
});

describe('posterior offset', () => {
  // Geometry reference 10.2, fixture O1: offset 26.0 of 58.5 in all.
  test('LIMB-17 fixture O1: ratio .4444', () => {
    const posterior = line([-14, 90], [-14, 180]);
    const anterior = line([18.5, 90], [18.5, 180]);
    const condyle = P(-40, 22);
    expect(posteriorCondylarOffset(condyle, posterior)).toBeCloseTo(26, 12);
    const ratio = posteriorCondylarOffsetRatio(condyle, posterior, anterior);
    expect(ratio.ok ? ratio.value : null).toBeCloseTo(0.4444, 4);
  });
  test('LIMB-16 offset of the invented knee is 26 mm, with the caution that films are imprecise here', () => {
    expect(measuredValue(lines, 'posterior-condylar-offset', 'right')).toBeCloseTo(26, 9);
    expect(flagsOf(lines, 'posterior-condylar-offset', 'right')).toContain('film-offset-imprecise');
    expect(measuredValue(lines, 'posterior-condylar-offset-ratio', 'right')).toBeCloseTo(26 / 58, 9);
  });
  test('LIMB-17 a condyle in front of the anterior cortex is refused', () => {
    const out = posteriorCondylarOffsetRatio(P(30, 0), line([-14, 90], [-14, 180]), line([18, 90], [18, 180]));
    expect(out.ok ? '' : out.reason.code).toBe('condyle-before-cortex');
  });
});

describe('patella', () => {
  test('PAT-5 height over the bearing line: inferior pole to tray and insert, by hand', () => {
    const tilt = Math.atan2(2.516, 48);
    const height = -(46 - 24) * Math.sin(tilt) + (20 + 9) * Math.cos(tilt) - 10;
    expect(measuredValue(lines, 'patellar-height', 'right')).toBeCloseTo(height, 9);
  });
  test('PAT-7 the insert does not show: without its thickness what hangs on the bearing line is refused, the rest is not', () => {
    const { implants: _, ...unknown } = evidence;
    const bare = measureCase(unknown);
    for (const id of ['blackburne-peel', 'caton-deschamps', 'patellar-height']) {
      expect(lineOf(bare, id, 'right').refused?.code).toBe('insert-thickness-unknown');
      expect(lineOf(bare, id, 'right').refused?.field).toBe('implants.insertMm');
    }
    expect(measuredValue(bare, 'insall-salvati', 'right')).toBeCloseTo(
      measuredValue(lines, 'insall-salvati', 'right'),
      12,
    );
  });
  test('PAT-7 1 mm more insert lowers Blackburne-Peel by one over the articular length', () => {
    const thicker = measureCase({ ...evidence, implants: { insertMm: 11 } });
    const articular = Math.hypot(2, 32);
    expect(
      measuredValue(lines, 'blackburne-peel', 'right') - measuredValue(thicker, 'blackburne-peel', 'right'),
    ).toBeCloseTo(1 / articular, 9);
  });
  test('PAT-3 each mm of raised joint line lowers Blackburne-Peel by about .031 at 32 mm (geometry reference, section 3)', () => {
    const at = (y: number) => {
      const r = blackburnePeel(P(36, 58), P(36, 26), line([-24, y], [22, y]));
      return r.ok ? r.value : Number.NaN;
    };
    expect(at(0) - at(1)).toBeCloseTo(0.031, 3);
    expect(at(0) - at(5)).toBeCloseTo(0.16, 2);
    expect(at(0) - at(8)).toBeCloseTo(0.25, 2);
  });
  test('PAT-1 a patella without length is refused', () => {
    const out = insallSalvati(P(1, 1), P(1, 1), P(0, -40));
    expect(out.ok ? '' : out.reason.code).toBe('line-has-no-length');
  });
});

describe('PAT-6 true and pseudo patella baja', () => {
  const normal = {
    'insall-salvati': 1,
    'modified-insall-salvati': 1.4,
    'blackburne-peel': 0.8,
    'caton-deschamps': 0.9,
  };
  test('all indices low: the tendon is short', () =>
    expect(
      readPatella({
        'insall-salvati': 0.7,
        'modified-insall-salvati': 1.1,
        'blackburne-peel': 0.4,
        'caton-deschamps': 0.5,
      }),
    ).toBe('true-baja'));
  test('joint-line indices low, tendon indices not: the joint line is raised', () =>
    expect(readPatella({ ...normal, 'blackburne-peel': 0.4, 'caton-deschamps': 0.5 })).toBe('pseudo-baja'));
  test('none low, part low, too little known', () => {
    expect(readPatella(normal)).toBe('not-low');
    expect(readPatella({ ...normal, 'caton-deschamps': 0.5 })).toBe('mixed');
    expect(readPatella({ ...normal, 'insall-salvati': 0.7 })).toBe('mixed');
    expect(readPatella({ 'insall-salvati': 0.7, 'blackburne-peel': null })).toBe('not-known');
    expect(readPatella({})).toBe('not-known');
  });
  test('a joint line raised by a thick insert shows as pseudo baja beside every index', () => {
    const raised = measureCase({ ...evidence, implants: { insertMm: 26 } });
    for (const id of ['insall-salvati', 'modified-insall-salvati', 'blackburne-peel', 'caton-deschamps'])
      expect(flagsOf(raised, id, 'right')).toContain('pseudo-baja');
    expect(flagsOf(lines, 'insall-salvati', 'right')).not.toContain('pseudo-baja');
  });
});
