import type { TreatmentOption } from '@gapline/core/bone/treatment/treatment-options.ts';

/** Why one way stands as it stands: rules, what is not known, published figures, and where experts differ. */
export function OptionDetails({ option }: { readonly option: TreatmentOption }) {
  const { why, missing, reported, conflicts } = option;
  return (
    <div className="option-body">
      {why.length > 0 && (
        <ul className="option-why">
          {why.map((rule) => (
            <li key={rule.rule}>
              {rule.text}{' '}
              <small>
                {rule.rule}, {rule.source}, grade {rule.grade}
              </small>
            </li>
          ))}
        </ul>
      )}
      {missing.length > 0 && (
        <ul className="option-missing">
          {missing.map((m) => (
            <li key={m.fact}>
              <strong>{FACT_WORDS[m.fact]} not known:</strong> {m.wouldChange}
            </li>
          ))}
        </ul>
      )}
      {reported.length > 0 ? (
        <table className="reported">
          <thead>
            <tr>
              <th scope="col">Published</th>
              <th scope="col">What</th>
              <th scope="col">n</th>
              <th scope="col">Years</th>
              <th scope="col">Source</th>
            </tr>
          </thead>
          <tbody>
            {reported.map((r) => (
              <tr key={`${r.value} ${r.source}`}>
                <td>
                  <strong>{r.value}</strong>
                </td>
                <td>{r.what}</td>
                <td>{r.n ?? 'not stated'}</td>
                <td>{r.years ?? 'not stated'}</td>
                <td>
                  {r.source} <small>grade {r.grade}</small>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      ) : (
        <p className="said-line">No published survival is held for this way.</p>
      )}
      {conflicts.map((c) => (
        <div key={c.id} className="experts">
          <p className="experts-question">Experts differ: {c.question}</p>
          <p>{c.one}</p>
          <p>{c.other}</p>
          <small>{c.source}</small>
        </div>
      ))}
    </div>
  );
}

const FACT_WORDS: Readonly<Record<TreatmentOption['missing'][number]['fact'], string>> = {
  boneClass: 'Class',
  quality: 'Quality of the bone',
  depthMm: 'Depth',
  unsupportedPct: 'Share without support',
  containment: 'Containment',
  age: 'Age',
  demand: 'What is asked of the knee',
  attachmentLost: 'Attachments',
  failedBefore: 'Earlier reconstruction',
};
