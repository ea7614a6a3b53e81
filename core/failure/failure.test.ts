import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CAUSES, type CauseId } from './causes.ts';
import { evidenceFromMeasurements } from './evidence-from-measurements.ts';
import { EVIDENCE, type EvidenceId } from './evidence-table.ts';
import { BEFORE_UNEXPLAINED, gate, openEvidence } from './gate.ts';
import { readLucentLines } from './lucent-lines.ts';
import { readMigration, SUBSIDENCE_LIMIT_MM, TILT_LIMIT_DEG } from './migration.ts';
import { stiffnessGrade } from './stiffness.ts';
import { type EvidenceRecord, type Looked, weighEvidence } from './weigh-evidence.ts';

const ids = EVIDENCE.map((e) => e.id);
const anyRecord = fc.dictionary(
  fc.constantFrom(...ids),
  fc.constantFrom<Looked>('present', 'absent', 'unknown'),
) as fc.Arbitrary<EvidenceRecord>;
const of = (record: EvidenceRecord, id: CauseId) => weighEvidence(record).find((c) => c.id === id)!;

describe('causes and evidence', () => {
  test('CAUSE-1 infection leads and unexplained pain closes the list', () => {
    expect(CAUSES[0].id).toBe('infection');
    expect(CAUSES.at(-1)?.id).toBe('unexplained');
    expect(new Set(CAUSES.map((c) => c.id)).size).toBe(13);
  });

  test('CAUSE-2 each present item that bears on a cause stands on exactly one of its two lists', () => {
    fc.assert(
      fc.property(anyRecord, (record) => {
        for (const cause of weighEvidence(record)) {
          const bearing = EVIDENCE.filter((e) => (e.bears as Record<string, number>)[cause.id] !== undefined);
          const present = bearing.filter((e) => record[e.id] === 'present').length;
          const absent = bearing.filter((e) => record[e.id] === 'absent').length;
          expect(cause.supports.length + cause.contradicts.length).toBe(present);
          expect(cause.notLookedFor.length).toBe(bearing.length - present - absent);
        }
      }),
    );
  });

  test('CAUSE-2 adding a present finding never takes support away and not looking is never absence', () => {
    fc.assert(
      fc.property(anyRecord, fc.constantFrom(...ids), (record, id) => {
        const more = weighEvidence({ ...record, [id]: 'present' });
        weighEvidence({ ...record, [id]: 'unknown' }).forEach((before, i) => {
          expect(more[i]!.supports.length).toBeGreaterThanOrEqual(before.supports.length);
          expect(more[i]!.contradicts.length).toBeGreaterThanOrEqual(before.contradicts.length);
        });
      }),
    );
  });

  test('CAUSE-2 a sinus is near-diagnostic of infection and speaks against referred pain', () => {
    const record: EvidenceRecord = { 'sinus-or-exposed-implant': 'present' };
    expect(of(record, 'infection').supports[0]).toMatchObject({ strength: 3 });
    expect(of(record, 'referred-pain').contradicts[0]).toMatchObject({ strength: -2 });
    expect(of(record, 'loosening').supports).toEqual([]);
  });

  test('CAUSE-2 several causes may hold together', () => {
    const record: EvidenceRecord = { 'subsidence-tilt-or-cement-fracture': 'present', 'giving-way': 'present' };
    expect(of(record, 'loosening').supports.length).toBeGreaterThan(0);
    expect(of(record, 'instability').supports.length).toBeGreaterThan(0);
  });

  test('CAUSE-2 a practice replaces single strengths and leaves the rest', () => {
    const record: EvidenceRecord = { 'giving-way': 'present', 'recurrent-effusion': 'present' };
    const own = weighEvidence(record, { 'giving-way': { instability: 1 } }).find((c) => c.id === 'instability')!;
    expect(own.supports.map((s) => [s.id, s.strength])).toEqual([
      ['recurrent-effusion', 2],
      ['giving-way', 1],
    ]);
  });
});

describe('films', () => {
  const widths = (...w: (number | null)[]) => w;

  test.each([
    [widths(1, 1, 1, 0, 0, 0, 0), false, 'probably-not-significant'],
    [widths(2, 1, 1, 0, 0, 0, 0), false, 'probably-not-significant'],
    [widths(2, 2, 1, 0, 0, 0, 0), false, 'follow-closely'],
    [widths(2, 2, 2, 2, 1, 0, 0), false, 'follow-closely'],
    [widths(2, 2, 2, 2, 2, 0, 0), false, 'possible-or-impending-failure'],
    [widths(1, 1, 0, 0, 0, 0, 0), true, 'follow-closely'],
    [widths(1, 1, 0, 0, 0, 0, 0), null, null],
    [widths(4, 4, 2, null, null, null, null), null, 'possible-or-impending-failure'],
    [widths(2, 2, 1, null, 0, 0, 0), false, null],
  ])('CAUSE-3 seven zones %j, progressing %s, read as %s (bands of 1989)', (w, progressing, expected) => {
    const read = readLucentLines('tibia-ap', w, progressing);
    expect(read.ok && read.value.reading1989).toBe(expected);
  });

  test('CAUSE-3 the reading of 2015 tells partial from complete and thin from wide', () => {
    const read = (w: (number | null)[]) => {
      const r = readLucentLines('tibia-lateral', w, null);
      return r.ok ? r.value.reading2015 : null;
    };
    expect(read([1, 1, 2])).toEqual({ extent: 'complete', width: '2-mm-or-more' });
    expect(read([1, 0, 0])).toEqual({ extent: 'partial', width: 'under-2-mm' });
    expect(read([0, 0, 0])).toEqual({ extent: 'none', width: 'none' });
    expect(read([1, null, 1])).toEqual({ extent: 'not-known', width: 'under-2-mm' });
    expect(read([1, null, 0])).toEqual({ extent: 'partial', width: 'under-2-mm' });
  });

  test('CAUSE-3 wrong zones and negative widths are refused by name', () => {
    const zones = readLucentLines('patella', [1], null);
    expect(zones.ok ? '' : zones.reason.code).toBe('zones-do-not-match');
    const width = readLucentLines('patella', [0, 0, -1, 0, 0], null);
    expect(width.ok ? '' : width.reason.field).toBe('lucentLines.patella[2]');
  });

  test('CAUSE-4 a change counts as movement only beyond limit and beyond its own error', () => {
    expect(readMigration({ value: -4, sd: 0.8 }, SUBSIDENCE_LIMIT_MM)).toBe('moved');
    expect(readMigration({ value: 2.5, sd: 1.5 }, SUBSIDENCE_LIMIT_MM)).toBe('within-error');
    expect(readMigration({ value: 0.2, sd: 0.3 }, TILT_LIMIT_DEG)).toBe('not-shown');
    expect(readMigration({ value: 1.5, sd: 0.6 }, TILT_LIMIT_DEG)).toBe('within-error');
  });

  test('CAUSE-5 grades follow the consensus table and the worse of two counts', () => {
    expect(stiffnessGrade(95, 0)).toEqual({ grade: 'mild', atLeast: false });
    expect(stiffnessGrade(110, 15)).toEqual({ grade: 'moderate', atLeast: false });
    expect(stiffnessGrade(65, null)).toEqual({ grade: 'severe', atLeast: false });
    expect(stiffnessGrade(110, null)).toEqual({ grade: 'none', atLeast: true });
    expect(stiffnessGrade(null, null)).toBeNull();
  });

  test('CAUSE-6 a film accuses or clears only when its interval agrees', () => {
    const at = (value: number, sd: number) =>
      evidenceFromMeasurements({
        hka: { value, sd, film: 'a' },
        trayCoronal: { value: 90, sd: 0.2, film: 'a' },
      }).find((e) => e.id === 'alignment-outlier-over-3')!.looked;
    expect(at(-6, 0.7)).toBe('present');
    expect(at(-4, 0.7)).toBe('unknown');
    expect(at(-1, 0.7)).toBe('absent');
    expect(evidenceFromMeasurements({}).every((e) => e.looked === 'unknown')).toBe(true);
  });

  test('CAUSE-6 rotation on CT accuses when it is internal beyond its limit, never when external', () => {
    const at = (value: number, sd: number) =>
      evidenceFromMeasurements({ combinedRotation: { value, sd, film: 'ct' } }).find(
        (e) => e.id === 'ct-combined-internal-rotation-over-3',
      )!.looked;
    expect([at(-8, 1.5), at(-4, 1.5), at(-3, 0), at(0, 1.5), at(9, 1.5)]).toEqual([
      'present',
      'unknown',
      'absent',
      'absent',
      'absent',
    ]);
  });

  test('CAUSE-6 one film beyond its limit is enough although the other is missing', () => {
    const line = evidenceFromMeasurements({ jointLineShift: { value: 9, sd: 1.9, film: 'b' } });
    expect(line.find((e) => e.id === 'joint-line-shift-or-baja')).toMatchObject({ looked: 'present', film: 'b' });
  });
});

describe('gate', () => {
  const looked = Object.fromEntries(BEFORE_UNEXPLAINED.map((id) => [id, 'absent'])) as Record<EvidenceId, Looked>;

  test('CAUSE-7 stays shut until infection is settled and a cause has a reason', () => {
    expect(gate({ infection: 'not-assessed', named: [], evidence: {} })).toMatchObject({ ready: false });
    const named = [{ cause: 'loosening' as const, reason: 'tray sunk 4 mm in a year' }];
    expect(gate({ infection: 'not-classifiable', named, evidence: {} }).ready).toBe(false);
    expect(gate({ infection: 'excluded', named: [{ cause: 'loosening', reason: ' ' }], evidence: {} }).ready).toBe(
      false,
    );
    expect(gate({ infection: 'excluded', named, evidence: {} }).ready).toBe(true);
    expect(gate({ infection: 'confirmed', named, evidence: {} }).ready).toBe(true);
  });

  test('CAUSE-8 unexplained pain needs everything looked for, proposes referral, and yields only to a written reason', () => {
    const named = [{ cause: 'unexplained' as const, reason: 'nothing found' }];
    const early = gate({ infection: 'excluded', named, evidence: {}, overrideReason: 'patient insists' });
    expect(early.ready).toBe(false);
    expect(early.open).toHaveLength(BEFORE_UNEXPLAINED.length);
    const late = gate({ infection: 'excluded', named, evidence: looked });
    expect(late).toMatchObject({ ready: false, open: [], referralProposed: true });
    expect(
      gate({ infection: 'excluded', named, evidence: looked, overrideReason: 'second opinion agrees' }),
    ).toMatchObject({
      ready: true,
      overridden: true,
    });
  });

  test('CAUSE-7 what would change most is asked for first', () => {
    const order = openEvidence({}).map((e) => e.weight);
    expect(order).toEqual(order.toSorted((a, b) => b - a));
    expect(openEvidence({ 'giving-way': 'absent' }).some((e) => e.id === 'giving-way')).toBe(false);
  });
});
