import type { ComparedLine } from '@gapline/core/compare/compare-dates.ts';
import { leastTold } from '@gapline/core/failure/migration.ts';
import { Z95 } from '@gapline/core/measure/quantity.ts';
import { type CaseComparison, compareCase, datesOf, whyNoDates } from '@gapline/core/plan/compare-case.ts';
import { useMemo, useState } from 'react';
import { useSession } from '../case/desk.tsx';
import { Choice } from '../parts/fields.tsx';
import { number, signed } from '../parts/words.ts';
import { inOrder, placeOf, reachOf, readingWords } from './change-scale.ts';
import { COMPONENT_WORDS } from './span-words.ts';

/** Two dates of the knee: what changed by more than its uncertainty, as a table and as a picture. Worked out once it is opened. */
export function CompareDates() {
  const [open, setOpen] = useState(false);
  return (
    <details className="compare-dates" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>Compare two dates</summary>
      {open && <Compared />}
    </details>
  );
}

function Compared() {
  const file = useSession((s) => s.shown);
  const dates = useMemo(() => datesOf(file), [file]);
  const [wanted, setWanted] = useState<{ readonly from?: string; readonly to?: string }>({});
  const days = dates.map((d) => d.on);
  const from = wanted.from && days.includes(wanted.from) ? wanted.from : days[0];
  const to = wanted.to && days.includes(wanted.to) ? wanted.to : days.at(-1);
  const comparison = useMemo(() => (from && to && from !== to ? compareCase(file, from, to) : null), [file, from, to]);
  const lacking = whyNoDates(file);
  if (lacking || !from || !to) return <p className="said-line">{lacking}</p>;
  const options = dates.map(
    (d) => [d.on, `${d.on}, ${d.films.length} ${d.films.length === 1 ? 'film' : 'films'}`] as const,
  );
  return (
    <>
      <div className="fields">
        <Choice label="Older" options={options} value={from} onChoose={(on) => setWanted({ ...wanted, from: on })} />
        <Choice label="Newer" options={options} value={to} onChoose={(on) => setWanted({ ...wanted, to: on })} />
      </div>
      {comparison ? <Result comparison={comparison} /> : <p className="said-line">Choose two different dates.</p>}
    </>
  );
}

function Result({ comparison }: { readonly comparison: CaseComparison }) {
  const { conflicts, lines, lucentLines, notCompared } = comparison;
  const ordered = inOrder(lines);
  const telling = ordered.filter((l) => l.larger || l.movement);
  const quiet = ordered.filter((l) => !telling.includes(l));
  return (
    <>
      {conflicts.map((c) => (
        <p key={c.message} className="warning">
          {c.message} {c.mend}
        </p>
      ))}
      {lines.length === 0 && <p className="said-line">Nothing is measured on both dates by the same landmarks.</p>}
      {telling.length > 0 && <Changes lines={telling} all={lines} title="Changes, and components that could move" />}
      {quiet.length > 0 && (
        <details>
          <summary>{quiet.length} more within their uncertainty</summary>
          <Changes lines={quiet} all={lines} title="Changes within their uncertainty" />
        </details>
      )}
      {lucentLines.map(({ component, progress }) => (
        <p key={component} className="said-line">
          Lucent lines, {COMPONENT_WORDS[component]}: {lucentWords(progress)}
        </p>
      ))}
      {notCompared.length > 0 && (
        <details className="waiting">
          <summary>{notCompared.length} measured on one date only, and why</summary>
          <ul>
            {notCompared.map((n) => (
              <li key={n.id}>
                <strong>{n.label}</strong>
                <span>{n.why}</span>
              </li>
            ))}
          </ul>
        </details>
      )}
      <p className="caution-line">
        Of many lines one in twenty is larger than its 95 % uncertainty by chance: “changed” passes a test over all of
        them together, “perhaps changed” its own alone.
      </p>
    </>
  );
}

function lucentWords(progress: CaseComparison['lucentLines'][number]['progress']): string {
  const grew = progress.zones.filter((z) => z.reading === 'grew');
  if (grew.length > 0)
    return `grew in ${grew.map((z) => `zone ${z.zone} by ${number(z.changeMm)} ± ${number(Z95 * z.sdMm)} mm`).join(', ')}.`;
  return progress.progressing === false
    ? 'no zone grew.'
    : 'whether they grew cannot be told yet: not all zones are measured on both dates, or too loosely.';
}

const WIDTH = 180;

function Changes({
  lines,
  all,
  title,
}: {
  readonly lines: readonly ComparedLine[];
  readonly all: readonly ComparedLine[];
  readonly title: string;
}) {
  return (
    <div className="changes-box">
      <table className="changes" aria-label={title}>
        <thead>
          <tr>
            <th scope="col">Measurement</th>
            <th scope="col">Older</th>
            <th scope="col">Newer</th>
            <th scope="col">Change ± 95 %</th>
            <th scope="col">Reading</th>
          </tr>
        </thead>
        <tbody>
          {lines.map((l) => (
            <tr key={l.id} data-compared={l.id} className={l.larger ? 'is-larger' : undefined}>
              <th scope="row">
                {l.label}
                {l.flags.map((f) => (
                  <small key={f.code}>{f.message}</small>
                ))}
              </th>
              <td>{number(l.before.value, l.unit)}</td>
              <td>{number(l.now.value, l.unit)}</td>
              <td>
                {signed(l.change.value, l.unit)} ± {number(Z95 * l.change.sd, l.unit)} {unitWord(l.unit)}
                <ChangePicture line={l} reach={reachOf(all, l.unit)} />
              </td>
              <td>
                {readingWords(l)}
                {l.movement?.reading === 'within-error' && (
                  <small>
                    limit {l.movement.limit}, least told {number(leastTold(l.change.sd), l.unit)} {unitWord(l.unit)}
                  </small>
                )}
                {l.change.shared.length > 0 && <small>shared by both: {l.change.shared.join(', ')}</small>}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

const unitWord = (unit: ComparedLine['unit']): string => (unit === 'deg' ? '°' : unit === '1' ? '' : unit);

/** The change as a dot with its 95 % interval about no change; ticks where movement begins. */
function ChangePicture({ line, reach }: { readonly line: ComparedLine; readonly reach: number }) {
  const { value, sd } = line.change;
  const at = (v: number) => placeOf(v, reach, WIDTH);
  const limit = line.movement?.limit;
  return (
    <svg className="change-picture" viewBox={`0 0 ${WIDTH} 22`} aria-hidden="true">
      <line className="change-none" x1={WIDTH / 2} x2={WIDTH / 2} y1="1" y2="21" />
      {limit !== undefined &&
        [-limit, limit].map((v) => <line key={v} className="change-limit" x1={at(v)} x2={at(v)} y1="4" y2="18" />)}
      <line className="change-interval" x1={at(value - Z95 * sd)} x2={at(value + Z95 * sd)} y1="11" y2="11" />
      {line.larger ? (
        <circle className="change-dot is-larger" cx={at(value)} cy="11" r="4.5" />
      ) : (
        <circle className="change-dot" cx={at(value)} cy="11" r="3.5" />
      )}
    </svg>
  );
}
