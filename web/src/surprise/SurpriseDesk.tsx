import type { ReactNode } from 'react';
import { useShallow } from 'zustand/react/shallow';
import { useSession } from '../case/desk.tsx';
import { useUndoKeys } from '../case/undo-keys.ts';
import { CaseSwitch } from '../pages/CaseSwitch.tsx';
import { LIST } from '../pages/route.ts';
import { Notices, SavingLine } from '../pages/SavingLine.tsx';
import { sideWord } from '../parts/words.ts';
import { ArcSection } from './arc/ArcSection.tsx';
import { BailOutsSection } from './bail-outs/BailOutsSection.tsx';
import { BecomesSection } from './becomes/BecomesSection.tsx';
import { BoneStockSection } from './bone/BoneStockSection.tsx';
import { TreatmentSection } from './bone/TreatmentSection.tsx';
import { NineCellsSection } from './cells/NineCellsSection.tsx';
import { SurpriseProvider } from './forecast/forecasting-context.tsx';
import { FoundSection } from './found/FoundSection.tsx';
import { KitSection } from './kit/KitSection.tsx';
import { LeadFilm } from './LeadFilm.tsx';
import { ThreeLines } from './lead/ThreeLines.tsx';
import { useSectionsOf } from './SurpriseSection.tsx';
import { StemsSection } from './stems/StemsSection.tsx';

/** The bone that may be found and what must be in the room: one picture, three lines, and all the rest behind them. */
export function SurpriseDesk({ caution }: { readonly caution: ReactNode }) {
  const [id, title, side, invented] = useSession(
    useShallow(({ shown: file }) => [file.id, file.title, file.side, file.invented ?? false] as const),
  );
  useUndoKeys();
  useSectionsOf(id);
  return (
    <SurpriseProvider>
      <div className="desk surprise">
        <header className="desk-top">
          <a className="name" href={LIST} title="All cases">
            Gapline
          </a>
          <h1>
            {title}
            {invented && <span className="tag">invented</span>}
          </h1>
          <span className="desk-side">{sideWord(side)} knee</span>
          <CaseSwitch id={id} on="bone-and-kit" />
          <SavingLine />
        </header>
        <Notices />
        <main className="desk-body">
          <LeadFilm />
          <div className="steps-column surprise-column">
            <ThreeLines />
            <BoneStockSection />
            <TreatmentSection />
            <StemsSection />
            <ArcSection />
            <BecomesSection />
            <BailOutsSection />
            <NineCellsSection />
            <KitSection />
            <FoundSection />
            {caution}
          </div>
        </main>
      </div>
    </SurpriseProvider>
  );
}
