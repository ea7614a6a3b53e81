import { describe, expect, test } from 'vitest';
import { type ConstrainedConstruct, constructNotes } from './construct-notes.ts';

const plain: ConstrainedConstruct = {
  level: 'ps',
  least: 'ps',
  femurProximalMm: 0,
  bearingMm: 0,
  proximalTibia: false,
};
const codes = (change: Partial<ConstrainedConstruct>) => constructNotes({ ...plain, ...change }).map((n) => n.code);

describe('what to keep in mind about constraint', () => {
  test('CON-9 constraint above the least with a joint line more than 5 mm off: the line first', () => {
    expect(codes({})).toEqual([]);
    expect(codes({ level: 'vvc', femurProximalMm: 5.1 })).toEqual(['CON-9']);
    expect(codes({ level: 'hinge', bearingMm: -6 })).toEqual(['CON-9']);
    expect(codes({ level: 'vvc', femurProximalMm: 5 })).toEqual([]);
    // What the ligaments need is no raised constraint.
    expect(codes({ level: 'hinge', least: 'hinge', femurProximalMm: 9 })).toEqual([]);
    expect(constructNotes({ ...plain, level: 'vvc', femurProximalMm: -7 })[0]?.message).toContain('7.0 mm');
  });

  test('CON-10 a proximal tibial component takes the tubercle', () => {
    expect(codes({ proximalTibia: true })).toEqual(['CON-10']);
  });
});
