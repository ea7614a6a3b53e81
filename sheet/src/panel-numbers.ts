import type { JointLineEstimate } from '@gapline/core/joint-line/estimate-types.ts';
import type { Outcome } from '@gapline/core/measure/outcome.ts';
import { Z95 } from '@gapline/core/measure/quantity.ts';
import type { Plan } from '@gapline/core/plan/plan.ts';
import { type Box, heading, type Page, rule, write } from './page.ts';
import { signed } from './words.ts';

/** Gaps expected, joint line with its band, alignment. */
export function numbersPanel(page: Page, plan: Plan, box: Box): void {
  const afterGaps = gaps(page, plan, box);
  const afterLine = jointLine(page, plan, { ...box, y: afterGaps + 6 });
  alignment(page, plan, { ...box, y: afterLine + 6, height: box.y + box.height - afterLine - 6 });
}

function gaps(page: Page, plan: Plan, box: Box): number {
  const top = heading(page, 'GAPS EXPECTED · mm, + loose, − tight', box);
  if (plan.construct.kind !== 'solved') {
    write(page, 'None without a construct.', { box: { ...box, y: top, height: 14 }, style: { size: 10 } });
    return top + 16;
  }
  const { extensionLaxityMm: e, flexionLaxityMm: f } = plan.construct.answer.best.effect;
  const [first, column] = [62, (box.width - 62) / 2];
  const cell = (text: string, at: { row: number; column: number }, size: number) =>
    write(page, text, {
      box: { x: box.x + first + at.column * column, y: top + at.row, width: column, height: 26 },
      style: { size, weight: size > 10 ? 'bold' : 'plain', align: 'center' },
    });
  cell('medial', { row: -1, column: 0 }, 8.5);
  cell('lateral', { row: -1, column: 1 }, 8.5);
  for (const [i, [name, field, pair]] of (
    [
      ['Extension', 'extensionLaxityMm', e],
      ['Flexion', 'flexionLaxityMm', f],
    ] as const
  ).entries()) {
    const row = 11 + i * 31;
    rule(page, { ...box, y: top + row - 1 }, 0.3);
    write(page, name, {
      box: { ...box, y: top + row + 7, width: first, height: 14 },
      style: { size: 10.5, weight: 'bold' },
    });
    cell(signed(pair.medial), { row: row + 1, column: 0 }, 15);
    cell(signed(pair.lateral), { row: row + 1, column: 1 }, 15);
    cell(reach(plan, `${field}.medial`), { row: row + 19, column: 0 }, 6.5);
    cell(reach(plan, `${field}.lateral`), { row: row + 19, column: 1 }, 6.5);
  }
  return top + 73;
}

/** What the spread of the laxity lets the gap vary by, 95 %. */
function reach(plan: Plan, field: string): string {
  const origin = plan.bone.ok ? plan.bone.value.origins.find((o) => o.field === field) : undefined;
  return origin?.sd == null ? 'spread not known' : `± ${(Z95 * origin.sd).toFixed(1)}`;
}

function jointLine(page: Page, plan: Plan, box: Box): number {
  const top = heading(page, 'JOINT LINE · present line against target', box);
  const line = (label: string, estimate: Outcome<JointLineEstimate>, y: number) => {
    write(page, label, { box: { ...box, y: y + 3, width: 62, height: 14 }, style: { size: 10.5, weight: 'bold' } });
    const at = { ...box, x: box.x + 62, y, width: box.width - 62 };
    if (!estimate.ok) {
      write(page, `not known: ${estimate.reason.message}`, {
        box: { ...at, height: 20 },
        style: { size: 8, least: 6 },
      });
      return;
    }
    const { shiftMm, sdMm, agreement } = estimate.value;
    const size = Math.abs(shiftMm).toFixed(1);
    const words = Number(size) === 0 ? 'on target' : `${size} mm ${shiftMm > 0 ? 'raised' : 'lowered'}`;
    write(page, words, { box: { ...at, height: 15 }, style: { size: 12.5, weight: 'bold' } });
    const disagree = agreement?.disagree ? ' · LANDMARKS DISAGREE' : '';
    write(page, `± ${(Z95 * sdMm).toFixed(1)} mm (95 %)${disagree}`, {
      box: { ...at, y: y + 15, height: 9 },
      style: { size: 7, weight: agreement?.disagree ? 'bold' : 'plain' },
    });
  };
  line('Femur', plan.jointLine.femoral, top - 1);
  line('Tibia', plan.jointLine.tibial, top + 26);
  return top + 52;
}

function alignment(page: Page, plan: Plan, box: Box): void {
  const top = heading(page, 'ALIGNMENT', box);
  const target = plan.alignment.find((t) => t.chosen);
  const hka = plan.measurements.find((m) => m.id === 'hka' && m.side === plan.side)?.value;
  const now = hka == null ? 'now: not measured' : `now ${signed(hka)}° (+ valgus, − varus)`;
  const aim = target
    ? `Aim: ${target.label.toLowerCase()}, femur ${signed(target.femurDeg)}°, tibia ${signed(target.tibiaDeg)}°`
    : 'No target';
  write(page, `${aim}\nHip-knee-ankle ${now}`, {
    box: { ...box, y: top - 1, height: Math.max(10, box.y + box.height - top) },
    style: { size: 9, least: 6.5 },
  });
}
