import { confidentWrong, quantile, type Tallies, type Tally } from './score.ts';

/** Between these two lines of docs/proposals.md the table stands. */
export const BEGIN = '<!-- table: written by cases/proposals-study.ts -->';
export const END = '<!-- end of table -->';

const percent = (share: number): string => `${(100 * share).toFixed(share > 0 && share < 0.1 ? 1 : 0)} %`;

function row({ what, scored, tried }: Tally): string {
  const sure = scored.filter((s) => s.confident);
  const px = scored.map((s) => s.px);
  const mm = scored.map((s) => s.mm);
  const measured = px.some((v) => v > 0);
  const cells = measured
    ? [
        quantile(px, 0.5).toFixed(2),
        quantile(px, 0.95).toFixed(2),
        quantile(mm, 0.5).toFixed(2),
        quantile(mm, 0.95).toFixed(2),
        sure.length > 0
          ? quantile(
              sure.map((s) => s.mm),
              0.95,
            ).toFixed(2)
          : '',
      ]
    : ['', '', '', '', ''];
  const wrong = sure.filter((s) => s.wrong).length;
  // Where nothing is there to be found, every attempt without a confident answer is right.
  const rate = what.startsWith('film without') ? wrong / tried : confidentWrong(scored);
  return `| ${[what, String(tried), percent(scored.length / tried), ...cells, percent(sure.length / tried), `${wrong} (${percent(rate)})`].join(' | ')} |`;
}

/** The table of the study as Markdown. */
export function tableOf(tallies: Tallies, phantoms: number): string {
  const all = [...tallies.all.values()];
  const sure = all.flatMap((t) => t.scored.filter((s) => s.confident));
  const wrong = sure.filter((s) => s.wrong).length;
  return [
    `${phantoms} phantoms. Confident answers: ${sure.length}, of them wrong: ${wrong} (${percent(wrong / Math.max(1, sure.length))}).`,
    '',
    '| what | tried | answered | median px | 95 % px | median mm | 95 % mm | 95 % mm of confident | confident | confident and wrong |',
    '|---|---|---|---|---|---|---|---|---|---|',
    ...all.map(row),
  ].join('\n');
}
