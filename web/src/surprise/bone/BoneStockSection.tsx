import { FILM_CLASS_CAUTION } from '@gapline/core/bone/film-agreement.ts';
import { useMemo, useState } from 'react';
import { usePlanning, useSession } from '../../case/desk.tsx';
import { SurpriseSection } from '../SurpriseSection.tsx';
import { BonePicture } from './BonePicture.tsx';
import type { BoneName, RegionId } from './bone-drawing.ts';
import { type BoneReading, boneStockStanding, readBone } from './bone-reading.ts';
import { ClassBand } from './ClassBand.tsx';
import { DrawnDefects } from './DrawnDefects.tsx';
import { FixationLines } from './FixationLines.tsx';
import { AttachmentLines, RegionPanel } from './RegionPanel.tsx';
import { ZonesOfBone } from './ZonesOfBone.tsx';

/** What bone is there: a map of each bone to press on, the class it amounts to, and the zones that still hold. */
export function BoneStockSection() {
  const file = useSession((s) => s.shown);
  const plan = usePlanning((s) => s.plan);
  const femur = useMemo(() => readBone(file, plan, 'femur'), [file, plan]);
  const tibia = useMemo(() => readBone(file, plan, 'tibia'), [file, plan]);
  return (
    <SurpriseSection id="bone-stock" title="Bone stock" standing={boneStockStanding(femur, tibia)}>
      <p className="said-line">Press a surface to say what is lost there. Hatched: not known.</p>
      <OneBone bone="femur" reading={femur} />
      <OneBone bone="tibia" reading={tibia} />
      <p className="caution-line">{FILM_CLASS_CAUTION}</p>
    </SurpriseSection>
  );
}

function OneBone({ bone, reading }: { readonly bone: BoneName; readonly reading: BoneReading }) {
  const [region, setRegion] = useState<RegionId | null>(null);
  const { contradictions } = reading;
  return (
    <section className="bone-card" aria-labelledby={`bone-${bone}`}>
      <h3 id={`bone-${bone}`}>{bone === 'femur' ? 'Femur' : 'Tibia'}</h3>
      <ClassBand bone={bone} reading={reading} />
      {contradictions.length > 0 && (
        <ul className="conflicts">
          {contradictions.map((c) => (
            <li key={`${c.field} ${c.message}`}>
              <strong>{c.message}</strong> {c.mend}
            </li>
          ))}
        </ul>
      )}
      <BonePicture bone={bone} chosen={region} onChoose={(next) => setRegion(next === region ? null : next)} />
      {region && <RegionPanel bone={bone} region={region} />}
      <DrawnDefects bone={bone} />
      <AttachmentLines bone={bone} />
      <FixationLines bone={bone} />
      <ZonesOfBone reading={reading} />
    </section>
  );
}
