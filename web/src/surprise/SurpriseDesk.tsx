import type { ReactNode } from 'react';
import { useSession } from '../case/desk.tsx';
import { useUndoKeys } from '../case/undo-keys.ts';
import { DeskHeader } from '../pages/DeskHeader.tsx';
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
  const id = useSession((s) => s.shown.id);
  useUndoKeys();
  useSectionsOf(id);
  return (
    <SurpriseProvider>
      <div className="desk surprise">
        <DeskHeader on="bone-and-kit" />
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
