import { useShallow } from 'zustand/react/shallow';
import { useSession } from '../case/desk.tsx';
import { sideWord } from '../parts/words.ts';
import { CaseSwitch } from './CaseSwitch.tsx';
import { type CaseHalf, LIST } from './route.ts';
import { Notices, SavingLine } from './SavingLine.tsx';

/** Head of every desk of a case: its title and side, the way to the other desks, whether it is saved, what must be told. */
export function DeskHeader({ on }: { readonly on: CaseHalf }) {
  // Field by field, so that a keystroke in the record does not draw the head anew.
  const [id, title, side, invented] = useSession(
    useShallow(({ shown: file }) => [file.id, file.title, file.side, file.invented ?? false] as const),
  );
  return (
    <>
      <header className="desk-top">
        <a className="name" href={LIST} title="All cases">
          Gapline
        </a>
        <h1>
          {title}
          {invented && <span className="tag">invented</span>}
        </h1>
        <span className="desk-side">{sideWord(side)} knee</span>
        <CaseSwitch id={id} on={on} />
        <SavingLine />
      </header>
      <Notices />
    </>
  );
}
