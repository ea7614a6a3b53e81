import { describe, expect, test } from 'vitest';
import { type Envelope, leastConstraint } from './least-constraint.ts';

const sound: Envelope = {
  mcl: 'intact',
  lcl: 'intact',
  extensorMechanism: 'intact',
  recurvatumDeg: 0,
  femurClass: '2A',
};
const of = (change: Partial<Envelope>) => leastConstraint({ ...sound, ...change });
const codes = (change: Partial<Envelope>) => of(change).reasons.map((r) => r.code);

describe('least constraint', () => {
  test('CON-7 a sound, examined envelope needs the least, without reasons or notes', () => {
    expect(leastConstraint(sound)).toEqual({ level: 'ps', reasons: [], notes: [] });
  });

  test('CON-1 a lost extensor mechanism, CON-2 a lost medial ligament, CON-3 hyperextension: hinge', () => {
    expect(of({ extensorMechanism: 'absent' }).level).toBe('hinge');
    expect(codes({ extensorMechanism: 'absent' })).toEqual(['CON-1']);
    expect(codes({ mcl: 'absent' })).toEqual(['CON-2']);
    expect(of({ mcl: 'absent', lcl: 'absent' }).reasons[0]?.message).toContain('Both');
    expect(codes({ recurvatumDeg: 10 })).toEqual(['CON-3']);
    expect(of({ recurvatumDeg: 9.9 }).level).toBe('ps');
  });

  test('CON-4 gaps beyond 8 mm or openings beyond 10 mm: hinge', () => {
    expect(of({ flexionLessExtensionMm: 8.1 }).level).toBe('hinge');
    expect(of({ flexionLessExtensionMm: 8 }).level).toBe('vvc');
    expect(of({ openingMm: 10.1 }).level).toBe('hinge');
  });

  test('CON-6 attenuated medial, absent lateral, gaps beyond 4 mm, openings beyond 5 mm: varus-valgus constrained', () => {
    for (const change of [
      { mcl: 'attenuated' },
      { lcl: 'absent' },
      { flexionLessExtensionMm: 4.1 },
      { openingMm: 5.1 },
    ] as const)
      expect([of(change).level, codes(change)]).toEqual(['vvc', ['CON-6']]);
    expect(of({ flexionLessExtensionMm: 4, openingMm: 5 }).level).toBe('ps');
    expect(of({ lcl: 'attenuated' }).level).toBe('ps');
  });

  test('CON-5 femoral class 3 is a note, not a level', () => {
    expect(of({ femurClass: '3' })).toMatchObject({ level: 'ps', notes: [{ code: 'CON-5' }] });
  });

  test('CON-8 unknown ligaments never count as intact: a hinge must be in theatre, and the field is named', () => {
    const unknown = of({ mcl: 'unknown', lcl: 'unknown' });
    expect(unknown.level).toBe('ps');
    expect(unknown.notes[0]).toMatchObject({ code: 'CON-8', field: 'examination.mcl' });
    expect(unknown.notes[0]?.message).toContain('hinge must be in theatre');
    expect(of({ mcl: 'attenuated' }).notes[0]?.code).toBe('CON-8');
    expect(of({ recurvatumDeg: null }).notes[0]).toMatchObject({ code: 'CON-3', field: 'examination.recurvatumDeg' });
    expect(of({ extensorMechanism: 'unknown' }).notes[0]?.code).toBe('CON-1');
  });

  test('CON-2 known loss outweighs what is not known', () => {
    expect(of({ mcl: 'absent', lcl: 'unknown' }).level).toBe('hinge');
  });
});
