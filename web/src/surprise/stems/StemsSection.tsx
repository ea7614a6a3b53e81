import type { StemPlan, StemsOfBone } from '@gapline/core/plan/stem-plan.ts';
import { useDesk, usePlanning, useSession } from '../../case/desk.tsx';
import { number, signed, spread } from '../../parts/words.ts';
import { SurpriseSection } from '../SurpriseSection.tsx';
import type { SurpriseStanding } from '../standing.ts';
import { CanalTraces } from './CanalTraces.tsx';
import { LongestChart } from './LongestChart.tsx';
import { MetaphysealParts } from './MetaphysealParts.tsx';
import { StemCard } from './StemCard.tsx';

/** Canals, the stems that pass them, and what holds in the metaphysis. */
export function StemsSection() {
  const stems = usePlanning((s) => s.plan.stems);
  return (
    <SurpriseSection id="stems" title="Stems and cones" standing={stemsStanding(stems)}>
      {!stems && <p>Stems are judged once a catalogue is chosen; the canals can be traced before.</p>}
      <OfBone bone="femur" stems={stems?.femur ?? null} />
      <OfBone bone="tibia" stems={stems?.tibia ?? null} />
      {stems && (
        <>
          {stems.notKnown.length > 0 && (
            <dl className="missing-list">
              {stems.notKnown.map((m) => (
                <div key={`${m.field} ${m.what}`}>
                  <dt>{m.what}: not known</dt>
                  <dd>{m.wouldChange}</dd>
                </div>
              ))}
            </dl>
          )}
          <p className="table-note">Seats: {stems.seats}.</p>
        </>
      )}
    </SurpriseSection>
  );
}

function stemsStanding(stems: StemPlan | undefined): SurpriseStanding {
  if (!stems) return { is: 'open', line: 'No catalogue' };
  const both = [stems.femur, stems.tibia];
  const refused = both.flatMap((b) => b.refused).length;
  if (refused > 0) return { is: 'conflict', line: `${refused} ${refused === 1 ? 'trace' : 'traces'} to mend` };
  const stopped = both.filter((b) => b.chosen?.verdict === 'does-not-pass').map((b) => b.bone);
  if (stopped.length > 0) return { is: 'conflict', line: `The planned stem does not pass: ${stopped.join(' and ')}` };
  const untraced = both.filter((b) => !b.ap && !b.lateral).map((b) => b.bone);
  if (untraced.length > 0) return { is: 'open', line: `Canal not traced: ${untraced.join(' and ')}` };
  const words = both.map(
    (b) => `${b.bone}: ${b.tried.passes} of ${b.tried.passes + b.tried.fails + b.tried.notKnown} pass`,
  );
  const open = both.some((b) => b.chosen?.verdict === 'not-known');
  return { is: open ? 'open' : 'settled', line: words.join(', ') };
}

function OfBone({ bone, stems }: { readonly bone: 'femur' | 'tibia'; readonly stems: StemsOfBone | null }) {
  const side = useSession((s) => s.shown.side);
  const metaphysis = usePlanning((s) => s.plan.metaphysis?.[bone]);
  const others = stems?.candidates.filter((c) => c.ref !== stems.chosen?.ref) ?? [];
  return (
    <section className="bone-card" aria-label={`Stems of the ${bone}`}>
      <h3 id={`stems-${bone}`}>{bone === 'femur' ? 'Femur' : 'Tibia'}</h3>
      <CanalTraces bone={bone} stems={stems} />
      {stems && (
        <>
          <OfferedCanal stems={stems} />
          {stems.chosen && (
            <>
              <StemCard key={stems.chosen.ref} stem={stems.chosen} bone={bone} side={side} title="In the plan" />
              <GapsOfTilt chosen={stems.chosen} />
            </>
          )}
          {others.length > 0 && (
            <div className="stem-others">
              <h4>Other stems of the catalogue that may do, best first</h4>
              {others.map((stem) => (
                <StemCard key={stem.ref} stem={stem} bone={bone} side={side} />
              ))}
            </div>
          )}
          {stems.byDiameter.length > 0 && (
            <details className="longest">
              <summary>Longest stem that passes, by diameter</summary>
              <LongestChart rows={stems.byDiameter} bone={bone} />
              <p className="longest-key">
                <span className="is-ap">AP</span> <span className="is-lateral">lateral</span>
                <span className="is-dot">a length of the catalogue that passes both</span>
                <span className="is-open">not known</span>
                <span>mm from the seat; an arrow: the trace ends there</span>
              </p>
            </details>
          )}
        </>
      )}
      {metaphysis && <MetaphysealParts of={metaphysis} />}
    </section>
  );
}

/** The narrowest place, offered as the bone's canal; never written over what is stated. */
function OfferedCanal({ stems }: { readonly stems: StemsOfBone }) {
  const { session } = useDesk();
  const { offered, bone } = stems;
  if (!offered) return null;
  const { widthMm, sdMm, statedMm, atEndOfTrace, zMm } = offered;
  const value = Math.round(10 * widthMm) / 10;
  return (
    <div className="offered-canal">
      <p>
        Narrowest <span className="big-number">{number(widthMm)}</span> mm {spread(sdMm)}, {Math.round(zMm)} mm from the
        joint line{atEndOfTrace && '; still narrowing where the trace ends'}.{' '}
        {statedMm === null ? 'No canal is stated.' : `Stated: ${number(statedMm)} mm.`}
      </p>
      {statedMm !== value && (
        <button
          type="button"
          onClick={() =>
            session.commit(
              [{ kind: 'set', field: `/bone/${bone}CanalMm`, value }],
              `${bone === 'femur' ? 'Femoral' : 'Tibial'} canal set to ${value}`,
            )
          }
        >
          Take {number(value)} mm
          <span className="unseen"> as the canal of the {bone}</span>
        </button>
      )}
    </div>
  );
}

function GapsOfTilt({ chosen }: { readonly chosen: NonNullable<StemsOfBone['chosen']> }) {
  const { gaps } = chosen;
  if (!gaps || Math.max(Math.abs(gaps.extensionMm), Math.abs(gaps.flexionMm)) < 0.05) return null;
  return (
    <p className="said-line">
      Its tilt changes the extension gap by {signed(gaps.extensionMm)} mm and the flexion gap by{' '}
      {signed(gaps.flexionMm)} mm (+ looser).
    </p>
  );
}
