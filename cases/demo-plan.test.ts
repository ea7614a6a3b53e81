import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { makePlan } from '@gapline/core/plan/make-plan.ts';
import { surroundingsOf } from '@gapline/core/plan/surroundings.ts';
import { readWorkUp } from '@gapline/core/work-up/read-work-up.ts';
import { caseFaults } from '@gapline/exchange/case/read-case.ts';
import { demoCase } from '@gapline/phantoms/src/demo-case.ts';
import { afterAll, describe, expect, test } from 'vitest';

const dir = mkdtempSync(join(tmpdir(), 'gapline-demo-'));
afterAll(() => rmSync(dir, { recursive: true, force: true }));

const { caseFile } = demoCase(dir, { resolution: 0.1 });
const catalogue = JSON.parse(readFileSync(join(import.meta.dirname, '../catalogues/demo.json'), 'utf8'));
const truth = JSON.parse(readFileSync(join(dir, 'truth.json'), 'utf8'));
const plan = makePlan(caseFile, catalogue);
const { femoral } = plan.jointLine;

describe('the demonstration case, planned from films that a person marked', () => {
  test('the joint line is found raised, and the interval holds the true shift', () => {
    if (!femoral.ok) throw new Error(femoral.reason.message);
    const { shiftMm, sdMm } = femoral.value;
    expect(Math.abs(shiftMm - truth.legs.right.jointLine.femoralShiftMm)).toBeLessThan(1.96 * sdMm);
    expect(shiftMm).toBeGreaterThan(4);
  });

  test('a construct brings it down with distal augments and builds the tibia up medially', () => {
    if (plan.construct.kind !== 'solved') throw new Error(plan.construct.kind);
    const { best } = plan.construct.answer;
    expect(best.construct.distalAugments.medial).not.toBeNull();
    expect(best.construct.distalAugments.lateral).not.toBeNull();
    expect(best.construct.tibialAugments.medial).not.toBeNull();
    expect(best.construct.tibialAugments.lateral).toBeNull();
  });

  test('the work-up opens filled: infection excluded, two causes named and supported, one result marked', () => {
    const reading = readWorkUp(caseFile.workUp ?? {}, surroundingsOf(caseFile, plan, '2025-03-20'));
    expect(reading.infection.standing).toBe('excluded');
    expect(reading.gate.ready).toBe(true);
    for (const { cause } of caseFile.workUp?.causes ?? []) {
      const weighed = reading.causes.find((c) => c.id === cause);
      expect(weighed?.supports.some((s) => s.strength === 3)).toBe(true);
      expect(weighed?.contradicts).toEqual([]);
    }
    expect(reading.evidence.filter((e) => e.looked === 'present' && e.from === 'films').map((e) => e.id)).toContain(
      'alignment-outlier-over-3',
    );
    expect(reading.evidence.filter((e) => e.overrides)).toEqual([]);
    expect(reading.infection.observed.faults.map((f) => f.code)).toEqual(['no-unit']);
    expect(caseFaults(JSON.stringify(caseFile), 'case.json')).toEqual([]);
  });

  test('its canals are read on three films, and both stems pass them', () => {
    for (const bone of ['femur', 'tibia'] as const) {
      const stems = plan.stems?.[bone];
      expect(stems?.refused).toEqual([]);
      expect(stems?.ap?.film).toBe('long-leg');
      expect(stems?.lateral?.film).toBe('lateral');
      expect(stems?.chosen?.verdict).toBe('passes');
      expect(stems?.tried.fails).toBeGreaterThan(0);
    }
    const { bow } = plan.stems?.femur.lateral ?? {};
    const radius = truth.legs.right.lengthsMm.bowRadius;
    expect(Math.abs((bow?.curvaturePerMm ?? 0) + 1 / radius)).toBeLessThan(3 * (bow?.curvatureSdPerMm ?? 0));
  });

  test('screw holes in the tibia are passed, and the cavity of the keel takes a cone', () => {
    expect(plan.stems?.tibia.chosen?.bypass).toEqual([expect.objectContaining({ standing: 'met' })]);
    expect(plan.metaphysis?.tibia.fits?.[0]?.verdict).toBe('fits');
    expect(plan.metaphysis?.femur.fits).toBeNull();
  });

  test('nothing in the case is refused or in conflict', () => {
    expect(plan.conflicts).toEqual([]);
    expect(plan.bone.ok).toBe(true);
  });
});
