import { chiSquareP } from '../measure/chi-square.ts';
import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import { eventTable, type FollowUp } from './follow-up.ts';

export interface LogRank {
  /** Events seen in each group, in the order given, and those expected if all groups were alike. */
  readonly observed: readonly number[];
  readonly expected: readonly number[];
  readonly chiSquare: number;
  readonly degrees: number;
  /** Chance of a difference at least this large if the groups were alike. */
  readonly p: number;
}

/**
 * SURV-3: log-rank test over two or more groups (Mantel, Cancer Chemother Rep 1966;50:163), with the hypergeometric variance
 * for ties. Any event counts. Refuses fewer than two groups, an empty group, and groups that cannot be compared because no
 * event happened while two of them were at risk.
 */
export function logRank(groups: readonly (readonly FollowUp[])[]): Outcome<LogRank> {
  if (groups.length < 2 || groups.some((g) => g.length === 0))
    return cannot({
      code: 'two-groups-needed',
      message: 'A comparison needs two groups with at least one joint each.',
    });
  const table = eventTable(groups.flat());
  if (!table.ok) return table;
  const k = groups.length;
  const observed = groups.map((g) => g.filter((f) => f.event !== null).length);
  const expected = groups.map(() => 0);
  const variance = Array.from({ length: k - 1 }, () => Array.from({ length: k - 1 }, () => 0));
  for (const { time, atRisk, events } of table.value) {
    const inGroup = groups.map((g) => g.filter((f) => f.time >= time).length);
    const spread = atRisk > 1 ? (events * (atRisk - events)) / (atRisk - 1) : 0;
    for (let i = 0; i < k; i++) {
      const share = inGroup[i]! / atRisk;
      expected[i]! += events * share;
      if (i === k - 1) continue;
      for (let j = 0; j < k - 1; j++) variance[i]![j]! += spread * share * ((i === j ? 1 : 0) - inGroup[j]! / atRisk);
    }
  }
  const chiSquare = quadratic(observed.map((o, i) => o - expected[i]!).slice(0, -1), variance);
  if (chiSquare === null)
    return cannot({
      code: 'groups-not-comparable',
      message: 'No event happened while the groups were at risk together.',
    });
  const p = chiSquareP(Math.max(0, chiSquare), k - 1);
  return p.ok ? ok({ observed, expected, chiSquare: Math.max(0, chiSquare), degrees: k - 1, p: p.value }) : p;
}

/** d' V^-1 d by elimination with the largest pivot; null where V has no inverse. */
function quadratic(d: readonly number[], v: readonly (readonly number[])[]): number | null {
  const rows = v.map((row, i) => [...row, d[i]!]);
  for (let c = 0; c < rows.length; c++) {
    let best = c;
    for (let r = c + 1; r < rows.length; r++) if (Math.abs(rows[r]![c]!) > Math.abs(rows[best]![c]!)) best = r;
    [rows[c], rows[best]] = [rows[best]!, rows[c]!];
    const pivot = rows[c]!;
    if (!(Math.abs(pivot[c]!) > 1e-12)) return null;
    for (let r = 0; r < rows.length; r++) {
      if (r === c) continue;
      const times = rows[r]![c]! / pivot[c]!;
      for (let j = c; j < pivot.length; j++) rows[r]![j]! -= times * pivot[j]!;
    }
  }
  return rows.reduce((sum, row, i) => sum + (d[i]! * row.at(-1)!) / row[i]!, 0);
}
