import { useDeskState, usePlanning } from '../case/desk.tsx';
import { number, signed } from '../parts/words.ts';

/** What follows the hand while the construct is moved: gaps, joint line, offset, overhang, and what it costs. */
export function HandReadout({ film }: { readonly film: string }) {
  const inHand = useDeskState((s) => s.tool?.is === 'construct' && s.tool.film === film);
  const construct = usePlanning((s) => s.plan.construct);
  if (!inHand || construct.kind !== 'solved') return null;
  const { best, pinned } = construct.answer;
  const { effect, construct: c } = best;
  const gap = (p: { readonly medial: number; readonly lateral: number }) =>
    `${signed(p.medial)} / ${signed(p.lateral)}`;
  const rows: readonly (readonly [string, string])[] = [
    ['Joint line, femur / tibia', `${signed(c.femurProximalMm)} / ${signed(effect.bearingMm)} mm`],
    // q forwards takes away from the offset behind.
    ['Posterior offset', `${signed(-c.femurAnteriorMm)} mm`],
    ['Extension, med / lat', `${gap(effect.extensionLaxityMm)} mm`],
    ['Flexion, med / lat', `${gap(effect.flexionLaxityMm)} mm`],
    ['Overhang, femur / tray', `${signed(effect.femurOverhangMm)} / ${signed(effect.trayOverhangMm)} mm`],
    ['Cost', pinned ? `${number(best.cost, '1')}, ${signed(pinned.more, '1')} by hand` : number(best.cost, '1')],
  ];
  return (
    <table className="hand-readout">
      <caption className="unseen">What follows the hand; joint line and offset against their targets</caption>
      <tbody>
        {rows.map(([what, value]) => (
          <tr key={what}>
            <th scope="row">{what}</th>
            <td>{value}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
