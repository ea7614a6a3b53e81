import { type ChoiceShare, FORECAST_CHOICES } from '@gapline/core/forecast/forecast-types.ts';
import { pct } from '@gapline/core/plan/told/shares.ts';
import { CHOICE_WORDS } from '../choice-words.ts';

/** Values of one choice that are told one by one; the rest are told together. */
const TOLD = 5;
/** From this share on a choice counts as certain. */
const CERTAIN = 0.995;

/** How often each choice comes out: a bar and a share for each, the choices that never change in one line below. */
export function ChoiceShares({ choices }: { readonly choices: readonly ChoiceShare[] }) {
  const groups = FORECAST_CHOICES.map((choice) => ({
    choice,
    values: choices.filter((c) => c.choice === choice).toSorted((a, b) => b.share - a.share),
  })).filter((g) => g.values.length > 0);
  const certain = groups.filter((g) => (g.values[0]?.share ?? 0) >= CERTAIN);
  const open = groups.filter((g) => !certain.includes(g));
  return (
    <>
      <div className="choices">
        {open.map(({ choice, values }) => (
          <table key={choice} className="choice-shares">
            <caption>{CHOICE_WORDS[choice]}</caption>
            <tbody>
              {values.slice(0, TOLD).map((v) => (
                <ShareRow key={v.value} label={v.label} share={v.share} />
              ))}
              {values.length > TOLD && (
                <ShareRow
                  label={`${values.length - TOLD} others`}
                  share={values.slice(TOLD).reduce((sum, v) => sum + v.share, 0)}
                />
              )}
            </tbody>
          </table>
        ))}
      </div>
      {certain.length > 0 && (
        <p className="said-line">
          {open.length > 0 ? 'The same in nearly every opening: ' : 'The same in every opening: '}
          {certain.map(({ choice, values }, i) => (
            <span key={choice}>
              {i > 0 && '; '}
              {CHOICE_WORDS[choice].toLowerCase()} <strong>{values[0]?.label}</strong>
            </span>
          ))}
          .
        </p>
      )}
    </>
  );
}

function ShareRow({ label, share }: { readonly label: string; readonly share: number }) {
  return (
    <tr>
      <th scope="row">{label}</th>
      <td>
        <span className="share-bar" aria-hidden="true">
          <span style={{ width: `${share * 100}%` }} />
        </span>
      </td>
      <td className="share-number">{pct(share)}</td>
    </tr>
  );
}
