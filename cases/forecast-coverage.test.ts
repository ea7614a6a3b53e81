import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import { choiceNames, choiceShares } from '@gapline/core/forecast/choices.ts';
import { drawKnees } from '@gapline/core/forecast/draw-knees.ts';
import { forecastEvents } from '@gapline/core/forecast/events.ts';
import { forecastLengths } from '@gapline/core/forecast/lengths.ts';
import type { BoneState } from '@gapline/core/gaps/bone-state.ts';
import type { Construct } from '@gapline/core/gaps/construct.ts';
import { DEFAULT_WEIGHTS } from '@gapline/core/gaps/default-weights.ts';
import { openSolver } from '@gapline/core/gaps/many/open-solver.ts';
import { calibrationOf } from '@gapline/core/learning/calibration.ts';
import { cellOf, compareFound } from '@gapline/core/learning/compare-found.ts';
import type { PartsUsed } from '@gapline/core/learning/found.ts';
import { keepForecast } from '@gapline/core/learning/keep-forecast.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { makePlan } from '@gapline/core/plan/make-plan.ts';
import { uncertainKnee } from '@gapline/core/plan/uncertain-knee.ts';
import { chance } from '@gapline/phantoms/src/chance.ts';
import { describe, expect, test } from 'vitest';
import { caseOfLimb, placedLimb } from './phantom-case.ts';

// Phantoms whose bone is hidden: films are marked with error, the knee is forecast from the marks, then "operated" on:
// the true bone of the phantom, less a loss at removal drawn forward here, is held against the forecast.

const LIMBS = 32;
const DRAWS = 120;
/** Corners of the loss at removal in this world, mm: the default of a cemented component, told to the forecast by the word. */
const LOSS = { least: 0, likely: 1, most: 3 } as const;
const CANAL_SD = 0.7;

const catalogue = JSON.parse(readFileSync(join(import.meta.dirname, '../catalogues/demo.json'), 'utf8')) as Catalogue;
const solver = openSolver({ catalogue, weights: DEFAULT_WEIGHTS });

type Luck = ReturnType<typeof chance>;

/** A triangular draw by throwing away (von Neumann): points under the triangle, whatever the forecast does. */
function lossMm(luck: Luck): number {
  for (;;) {
    const x = LOSS.least + luck.uniform() * (LOSS.most - LOSS.least);
    const height =
      x < LOSS.likely ? (x - LOSS.least) / (LOSS.likely - LOSS.least) : (LOSS.most - x) / (LOSS.most - LOSS.likely);
    if (luck.uniform() < height) return x;
  }
}

/** What a surgeon enters of this limb: marks of this leg, openings examined with their error, how the parts are held. */
function enteredCase(limb: ReturnType<typeof placedLimb>, luck: Luck): CaseFile {
  const file = caseOfLimb(limb, 1);
  const { removalLossMm: _, ...bone } = file.bone ?? {};
  const examined = (p: { medial: number; lateral: number } | undefined) =>
    p && { medial: p.medial + luck.normal(0, 1), lateral: p.lateral + luck.normal(0, 1) };
  const extension = examined(file.examination?.openingExtensionMm);
  const flexion = examined(file.examination?.openingFlexionMm);
  return {
    ...file,
    marks: file.marks.filter((m) => m.side === file.side),
    examination: {
      ...file.examination,
      ...(extension ? { openingExtensionMm: extension } : {}),
      ...(flexion ? { openingFlexionMm: flexion } : {}),
      openingSdMm: 1,
    },
    bone: {
      ...bone,
      femurCanalMm: (bone.femurCanalMm ?? 0) + luck.normal(0, CANAL_SD),
      tibiaCanalMm: (bone.tibiaCanalMm ?? 0) + luck.normal(0, CANAL_SD),
      femurFixation: 'cemented',
      tibiaFixation: 'cemented',
    },
    forecast: {
      spreads: { femurCanalMm: CANAL_SD, tibiaCanalMm: CANAL_SD },
      fractureChance: 0,
      infectionChance: 0,
      femurWorseChance: 0,
      tibiaWorseChance: 0,
      mclWorseChance: 0,
      lclWorseChance: 0,
    },
  };
}

/**
 * The knee as it is found. Supports, laxities and the femur's own size are the phantom's; it has no truth of widths at a cut,
 * slope at rest and flexion contact: those are drawn about what was measured.
 */
function foundState(limb: ReturnType<typeof placedLimb>, measured: BoneState, luck: Luck): BoneState {
  const bone = limb.truth.bone;
  if (!bone) throw new Error('the phantom has been operated on');
  const { symbols, loadedFrame } = bone;
  const cut = (p: { medial: number; lateral: number }) => ({
    medial: p.medial + lossMm(luck),
    lateral: p.lateral + lossMm(luck),
  });
  return {
    ...measured,
    femurDistalMm: cut(symbols.D),
    femurPosteriorMm: cut(symbols.P),
    tibiaMm: cut(loadedFrame.T),
    anteriorToPosteriorMm: symbols.A0,
    extensionLaxityMm: loadedFrame.e,
    flexionLaxityMm: loadedFrame.f,
    femurWidthMm: luck.normal(measured.femurWidthMm, 1.7),
    tibiaWidthMm: luck.normal(measured.tibiaWidthMm, 1.7),
    flexionContactBehindMm: luck.normal(measured.flexionContactBehindMm, 3),
    referenceSlopeDeg: luck.normal(measured.referenceSlopeDeg, 1.6),
    femurCanalMm: limb.truth.lengthsMm.femurCanal,
    tibiaCanalMm: limb.truth.lengthsMm.tibiaCanal,
  };
}

function operate(seed: number) {
  const limb = placedLimb(seed, { ideal: true });
  const luck = chance(seed, 'operation');
  const file = enteredCase(limb, luck);
  const plan = makePlan(file, null);
  const knee = uncertainKnee(file, plan);
  if (!knee.ok || !plan.bone.ok) return null;
  const knees = drawKnees(knee.value, { draws: DRAWS, seed });
  const constructs = knees.map((k) => solver.least(k.state)?.construct ?? null);
  const states = knees.map((k) => k.state);
  const lengths = forecastLengths(states, constructs);
  const kept = keepForecast(
    {
      seed,
      draws: DRAWS,
      choices: choiceShares(constructs, choiceNames(catalogue)),
      events: forecastEvents(knees),
      lengths,
      notStated: [],
    },
    { on: '2025-06-01', coreVersion: 'test' },
  );
  const found = foundState(limb, plan.bone.value.state, luck);
  return { lengths, kept, found, used: solver.least(found)?.construct ?? null };
}

const operated = Array.from({ length: LIMBS }, (_, i) => operate(i + 1)).filter((o) => o !== null);

const HIDDEN = ['femurDistalMm', 'femurPosteriorMm', 'tibiaMm', 'extensionLaxityMm', 'flexionLaxityMm'] as const;

/** Where each hidden number lies among the percentiles of its forecast. */
const cells = operated.flatMap(({ lengths, found }) => {
  const at = (field: string, value: number) => {
    const forecast = lengths.find((l) => l.field === field);
    return forecast ? [{ field, cell: cellOf(value, forecast.percentiles) }] : [];
  };
  return [
    ...HIDDEN.flatMap((name) => [
      ...at(`${name}.medial`, found[name].medial),
      ...at(`${name}.lateral`, found[name].lateral),
    ]),
    ...at('anteriorToPosteriorMm', found.anteriorToPosteriorMm),
  ];
});

/** Standard error of a share of n numbers that hang together in threes: sides, and bone with laxity. */
const errorOf = (share: number, n: number) => Math.sqrt((share * (1 - share)) / (n / 3));

/** A construct as it is noted after surgery: what was not used is noted as none. */
const noted = (used: Construct | null): PartsUsed =>
  used
    ? {
        ...used,
        tibialOffset: used.tibialOffset ?? null,
        femoralCone: used.femoralCone ?? null,
        femoralSleeve: used.femoralSleeve ?? null,
        tibialCone: used.tibialCone ?? null,
        tibialSleeve: used.tibialSleeve ?? null,
      }
    : {};

describe('FOR-9 hidden bone of phantoms against its forecast', () => {
  test('most limbs can be forecast', () => {
    expect(operated.length).toBeGreaterThan(0.8 * LIMBS);
  });

  test('it lies between the 5th and the 95th percentile in about 90 %, and as often above the middle as below', () => {
    const inside = cells.filter((c) => c.cell > 0 && c.cell < 5).length / cells.length;
    expect(cells.length).toBeGreaterThan(280);
    expect(Math.abs(inside - 0.9)).toBeLessThan(4 * errorOf(0.9, cells.length));
    const below = cells.filter((c) => c.cell < 3).length / cells.length;
    expect(Math.abs(below - 0.5)).toBeLessThan(4 * errorOf(0.5, cells.length));
  });
});

describe('LRN-3 parts of the construct for the hidden bone against their forecast shares', () => {
  const all = calibrationOf(
    operated.map(({ kept, used }) => compareFound(kept, { on: '2025-06-16', used: noted(used) })),
  );

  test('in every well filled bin the parts were used about as often as forecast', () => {
    const filled = all.bins.filter((b) => b.n >= 40);
    expect(filled.length).toBeGreaterThanOrEqual(5);
    for (const { forecast, n, observed } of filled)
      expect(Math.abs(observed.share - forecast)).toBeLessThan(4 * errorOf(forecast, n) + 0.02);
  });

  test('the forecast is far better than telling every part its average share (Brier)', () => {
    expect(all.events).toBeGreaterThan(1000);
    expect(all.brier?.skill).toBeGreaterThan(0.3);
  });
});
