import { FILM_CLASS_CAUTION } from '@gapline/core/bone/film-agreement.ts';
import type { StockOfBone } from '@gapline/core/plan/bone-stock.ts';
import { useEffect, useState } from 'react';
import { useDesk, usePlanning } from '../../case/desk.tsx';
import { SurpriseSection } from '../SurpriseSection.tsx';
import { BonePicture } from './BonePicture.tsx';
import type { RegionId } from './bone-drawing.ts';
import { boneStockStanding } from './bone-reading.ts';
import { ClassBand } from './ClassBand.tsx';
import { DrawnDefects } from './DrawnDefects.tsx';
import { FixationLines } from './FixationLines.tsx';
import { AttachmentLines, RegionPanel } from './RegionPanel.tsx';
import { ZonesOfBone } from './ZonesOfBone.tsx';

/** What bone is there: a map of each bone to press on, the class it amounts to, and the zones that still hold. */
export function BoneStockSection() {
  const { state } = useDesk();
  const plan = usePlanning((s) => s.plan);
  const { femur, tibia } = plan.boneStock;
  // Pencil and tracer belong to this page: whoever leaves it lays them down.
  useEffect(() => () => state.setState({ tool: null }), [state]);
  return (
    <SurpriseSection id="bone-stock" title="Bone stock" standing={boneStockStanding(plan)}>
      <p className="said-line">Press a surface to say what is lost there. Hatched: not known.</p>
      <OneBone stock={femur} />
      <OneBone stock={tibia} />
      <p className="caution-line">{FILM_CLASS_CAUTION}</p>
    </SurpriseSection>
  );
}

function OneBone({ stock }: { readonly stock: StockOfBone }) {
  const [region, setRegion] = useState<RegionId | null>(null);
  const { bone, contradictions } = stock;
  return (
    <section className="bone-card" aria-label={`Bone stock of the ${bone}`}>
      <h3 id={`bone-${bone}`}>{bone === 'femur' ? 'Femur' : 'Tibia'}</h3>
      <ClassBand stock={stock} />
      {contradictions.length > 0 && (
        <ul className="conflicts">
          {contradictions.map((c) => (
            <li key={`${c.field} ${c.message}`}>
              <strong>{c.message}</strong> {c.mend}
            </li>
          ))}
        </ul>
      )}
      <BonePicture map={stock.map} chosen={region} onChoose={(next) => setRegion(next === region ? null : next)} />
      {region && <RegionPanel bone={bone} region={region} />}
      <DrawnDefects stock={stock} />
      <AttachmentLines bone={bone} />
      <FixationLines bone={bone} />
      <ZonesOfBone stock={stock} />
    </section>
  );
}
