import { femoralLoad, holdUnder, insertCost, type TibialCandidate } from './candidates.ts';
import type { Pair } from './choices.ts';
import type { Found } from './order.ts';
import type { Search } from './search.ts';
import type { Parts } from './settle-parts.ts';
import type { Tables } from './tables.ts';
import { alwaysCharged, NEVER } from './whole-parts.ts';

/** Whether a pair is of the same augments. */
export const samePair =
  (as: Pair) =>
  ({ medial, lateral }: Pair): boolean =>
    medial === as.medial && lateral === as.lateral;

function sameTibia({ tray, seat, tibial, level }: Found, tables: Tables): TibialCandidate | null {
  const pair = tables.tibia.blocks(tray).find(samePair(tibial.pair));
  if (!pair) return null;
  const hold = holdUnder(tables.under(tray, level), pair);
  if (!hold) return null;
  const parts = insertCost(seat, tables.question.prices) + hold.cost;
  return { tray, seat, pair, hold, parts, least: parts + tables.tibia.leastOf(pair, tray, seat) };
}

/**
 * Settles the parts of a construct that was best for another bone state in this one and offers it to the search: a
 * close rival from the start leaves little to look through. Parts that do not go here are passed over.
 */
export function tryAgain(before: Found, search: Search): void {
  const { tables } = search;
  const { femur, level, slopeDeg, posterior } = before;
  const parts = alwaysCharged(tables.question, level) + tables.femur.width(femur);
  // What is quickly known first.
  if (!search.worth(parts + tables.tibia.width(before.tray))) return;
  const ties = tables.tiesAt(level).all.find((t) => t.slopeDeg === slopeDeg);
  if (!ties || !search.worth(parts + ties.least)) return;
  const distal = tables.femur.distal(femur).find(({ pair }) => samePair(before.distal.pair)(pair));
  const condyles = tables.femur.condyles(femur);
  const pair = condyles.find(samePair(posterior.pair));
  const tibial = sameTibia(before, tables);
  if (!distal || !pair || !tibial || !search.worth(tibial.least)) return;
  const choice = tables.tibia.choice(tibial.pair, tibial.tray, tibial.seat);
  for (const stance of tables.stances(femur, level)) {
    const behind = tables.femur.behind(femur, stance);
    const flange = behind.flanges.find((f) => f.coupler === posterior.flange.coupler);
    const again = flange && tables.femur.posterior(pair, flange);
    if (!again) continue;
    const stand = { femur, stance, parts, distals: [distal], behind, leastPosterior: again.least };
    const branch = { ...stand, least: parts + ties.least, ties, arc: tables.arc(ties, stance) };
    settleIfWorth({ branch, distal, posterior: again, tibial, choice }, search);
  }
}

/** Settles a full choice of parts unless one of its lower bounds says that it cannot be the best. */
function settleIfWorth(parts: Parts, search: Search): void {
  const { branch, distal, posterior, tibial } = parts;
  const held = branch.stance.held[femoralLoad(distal, posterior)]?.cost ?? NEVER;
  const bare = branch.parts + held;
  if (!search.worth(bare + branch.ties.least + distal.least + posterior.least + tibial.least)) return;
  for (const pull of search.pulls) if (!search.worth(bare + pull.ofParts(parts))) return;
  search.settle(parts);
}
