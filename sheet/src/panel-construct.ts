import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import { LEVEL_WORDS } from '@gapline/core/constraint/level-words.ts';
import type { Infeasible, SolvedConstruct } from '@gapline/core/gaps/construct.ts';
import type { PinnedCost } from '@gapline/core/gaps/pinned/pinned.ts';
import { couplerTurn } from '@gapline/core/plan/coupler-turn.ts';
import type { Missing, Plan } from '@gapline/core/plan/plan.ts';
import { type ListedPart, listParts } from './construct-list.ts';
import { type Box, heading, type Page, rule, write } from './page.ts';
import { overTarget } from './words.ts';

/** What to open, large; or plainly why nothing is proposed. */
export function constructPanel(
  page: Page,
  { plan, catalogue }: { readonly plan: Plan; readonly catalogue: Catalogue | null },
  box: Box,
): void {
  const { construct } = plan;
  const invented = catalogue?.invented ? ' - invented system, example only' : '';
  if (construct.kind === 'solved') {
    const top = heading(page, `CONSTRUCT${catalogue ? ` · ${catalogue.name}${invented}` : ''}`, box);
    const { best, pinned } = construct.answer;
    const byHand = pinned ? byHandLine(page, pinned, within(box, top)) : 0;
    const rest = within(box, top);
    solved(
      page,
      listParts(best.construct, catalogue),
      { ...rest, height: rest.height - byHand },
      { best, turn: couplerTurn(plan) },
    );
  } else if (construct.kind === 'infeasible') {
    const top = heading(page, `NO CONSTRUCT FITS${invented}`, box);
    clashes(page, construct.why, within(box, top));
  } else {
    const top = heading(page, 'NO CONSTRUCT PROPOSED', box);
    lacking(page, construct.because, within(box, top));
  }
}

/** Height of the line below, in points. */
const BY_HAND = 20;

/** What was fixed by hand and what it costs, at the foot of the panel; gives the height that it takes. */
function byHandLine(page: Page, { lines, more }: PinnedCost, box: Box): number {
  const fixed = lines.map((l) => `${l.label.toLowerCase()} ${l.fixed}`).join('; ');
  write(page, `Fixed by hand: ${fixed}. Costs ${more.toFixed(2)} more than the free optimum.`, {
    box: { ...box, y: box.y + box.height - BY_HAND + 1, height: BY_HAND - 2 },
    style: { size: 8.5, least: 5.5, weight: 'bold' },
  });
  return BY_HAND;
}

const within = (box: Box, top: number): Box => ({ ...box, y: top, height: box.y + box.height - top });

function solved(
  page: Page,
  parts: readonly ListedPart[],
  box: Box,
  { best, turn }: { readonly best: SolvedConstruct; readonly turn: string | null },
): void {
  const { construct, effect } = best;
  write(page, LEVEL_WORDS[construct.level], {
    box: { ...box, height: 19 },
    style: { size: 15, weight: 'bold' },
  });
  const foot = 26;
  const row = Math.min(19, (box.height - 22 - foot) / Math.max(1, parts.length));
  const size = Math.min(11.5, row - 4.5);
  let y = box.y + 22;
  let bone = '';
  for (const part of parts) {
    if (part.bone !== bone) {
      if (bone) rule(page, { ...box, y: y - 1.5 }, 0.3);
      write(page, part.bone, {
        box: { ...box, y, width: 40, height: row },
        style: { size: Math.min(9, size), weight: 'bold' },
      });
    }
    bone = part.bone;
    write(page, part.name, {
      box: { x: box.x + 42, y, width: box.width - 128, height: row },
      style: { size, least: 6, weight: 'bold' },
    });
    write(page, part.ref, {
      box: { x: box.x + box.width - 84, y: y + 1, width: 84, height: row },
      style: { size: Math.min(9, size), least: 6, weight: 'mono', align: 'right' },
    });
    y += row;
  }
  const seat = [
    `Femoral surface ${overTarget(construct.femurProximalMm)}`,
    `bearing surface ${overTarget(effect.bearingMm)}`,
    `tibial slope ${construct.slopeDeg} degrees`,
    ...(turn ? [`tibial coupler to ${turn}`] : []),
  ].join(', ');
  write(page, `${seat}.`, {
    box: { ...box, y: box.y + box.height - foot + 3, height: foot - 4 },
    style: { size: 8.5, least: 7 },
  });
}

function clashes(page: Page, why: Infeasible, box: Box): void {
  const lines = why.clashes.map((c) => `•  ${c.message}${c.mend ? ` ${c.mend}` : ''}`);
  write(page, 'Within the limits of this system nothing fits this knee:', {
    box: { ...box, height: 14 },
    style: { size: 10, weight: 'bold' },
  });
  write(page, lines.join('\n'), {
    box: { ...box, y: box.y + 18, height: box.height - 18 },
    style: { size: 10.5, least: 6.5 },
  });
}

function lacking(page: Page, because: readonly Missing[], box: Box): void {
  write(page, 'Missing for it:', { box: { ...box, height: 14 }, style: { size: 10, weight: 'bold' } });
  write(page, because.map((m) => `•  ${m.what}`).join('\n'), {
    box: { ...box, y: box.y + 18, height: box.height - 18 },
    style: { size: 10.5, least: 6.5 },
  });
}
