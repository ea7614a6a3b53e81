import { useDesk, useDeskState, useSession } from '../case/desk.tsx';
import { tabWord } from './tab-word.ts';

const ORDINALS = ['First', 'Second', 'Third', 'Fourth'] as const;

/** Which film stands at that place of the row; `none` takes it away. */
export function BesideSelect({ place }: { readonly place: 1 | 2 | 3 }) {
  const { state } = useDesk();
  const films = useSession((s) => s.shown.films);
  const shown = useDeskState((s) => s.films);
  const set = (id: string): void =>
    state.setState({
      films:
        id === '' ? shown.filter((_, i) => i !== place) : [...shown.slice(0, place), id, ...shown.slice(place + 1)],
    });
  const free = films.filter((f) => f.id === shown[place] || !shown.includes(f.id));
  return (
    <label>
      <span className="unseen">{ORDINALS[place]} film</span>
      <select value={shown[place] ?? ''} onChange={(event) => set(event.target.value)}>
        {place > 1 && <option value="">{ORDINALS[place]}: none</option>}
        {free.map((f) => (
          <option key={f.id} value={f.id}>
            {tabWord(f, films)}
          </option>
        ))}
      </select>
    </label>
  );
}
