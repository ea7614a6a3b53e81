import { measureKnee } from '@gapline/core/limb/measure-knee.ts';
import { datedLimb, setUpAnew } from './two-dates.ts';

// Run by hand: node cases/study-film-to-film.ts [limbs]. Its table stands in docs/rules/compare.md and in core/compare/film-to-film.ts.
// Every limb is filmed twice, set up anew in between, with exact marks and exact scale: what differs is the film alone.

const limbs = Number(process.argv[2] ?? 60);
const squares = new Map<string, { unit: string; sum: number; worst: number; n: number }>();
for (let seed = 501; seed < 501 + limbs; seed++) {
  const [first, second] = [1, 2].map((time) => measureKnee(datedLimb('', setUpAnew(seed, time)).evidence));
  for (const a of first ?? []) {
    const b = second?.find((m) => m.id === a.id);
    if (a.value === null || b?.value == null || a.variant !== b.variant || a.id === 'cpak') continue;
    const off = b.value - a.value;
    const before = squares.get(a.id) ?? { unit: a.unit, sum: 0, worst: 0, n: 0 };
    const worst = Math.max(before.worst, Math.abs(off));
    squares.set(a.id, { unit: a.unit, sum: before.sum + off * off, worst, n: before.n + 1 });
  }
}
const rows = [...squares].map(([id, { unit, sum, worst, n }]) => {
  // The difference of two films errs by the root of two of what one film errs.
  const sd = Math.sqrt(sum / n / 2);
  return `| ${id} | ${sd.toFixed(unit === '1' ? 3 : 2)} | ${unit} | ${worst.toFixed(unit === '1' ? 3 : 2)} | ${n} |`;
});
process.stdout.write(`${rows.join('\n')}\n`);
