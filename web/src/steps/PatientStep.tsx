import { describeEdit } from '@gapline/core/plan/describe-edit.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';
import { useDesk, useSession } from '../case/desk.tsx';
import { ChoiceField, TextField } from '../parts/fields.tsx';
import { sideWord } from '../parts/words.ts';

/** Who, and which knee. */
export function PatientStep() {
  const { session } = useDesk();
  const side = useSession((s) => s.shown.side);
  const films = useSession((s) => s.shown.films);
  const against = films.filter((f) => f.side !== 'both' && f.side !== side && f.role === 'present');
  return (
    <div className="fields">
      <fieldset className="plain is-wide">
        <legend>Knee to be revised</legend>
        <div className="sides">
          {(['right', 'left'] as const).map((one) => (
            <label key={one} className={`side-choice${side === one ? ' is-chosen' : ''}`}>
              <input
                type="radio"
                name="case-side"
                checked={side === one}
                onChange={() => {
                  const edit: Edit = { kind: 'set', field: '/side', value: one };
                  session.commit([edit], describeEdit(edit));
                }}
              />
              {sideWord(one)}
            </label>
          ))}
        </div>
        {against.length > 0 && (
          <small className="field-fault">
            {against.map((f) => f.file).join(', ')}: {against.length === 1 ? 'this film shows' : 'these films show'} the
            other knee.
          </small>
        )}
      </fieldset>
      <TextField label="Title" field="/title" />
      <TextField label="Name" field="/patient/name" />
      <TextField label="Number" field="/patient/id" />
      <TextField label="Birth date" field="/patient/birthDate" type="date" />
      <ChoiceField
        label="Sex"
        field="/patient/sex"
        none="not known"
        options={[
          ['female', 'female'],
          ['male', 'male'],
        ]}
      />
    </div>
  );
}
