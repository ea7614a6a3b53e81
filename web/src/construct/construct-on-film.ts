import { partsOf } from '@gapline/core/gaps/parts-of.ts';
import { calibrateFilms } from '@gapline/core/plan/calibrate-films.ts';
import { checkCase, soundPart } from '@gapline/core/plan/check-case.ts';
import { type ComponentOnFilm, componentsOnFilm } from '@gapline/core/plan/components-on-film.ts';
import { evidenceFor } from '@gapline/core/plan/make-plan.ts';
import type { Desk } from '../case/desk.tsx';
import type { PlanningState } from '../case/planning.ts';
import { type InReach, inReach } from './by-hand.ts';
import type { OnOneFilm } from './grips.ts';
import type { Grip, Hold } from './hold.ts';

/** Both components on a film; kept for one plan, since every gesture asks. */
const placed = new WeakMap<PlanningState['plan'], readonly ComponentOnFilm[]>();
function componentsOf({ plan, of, catalogue }: PlanningState): readonly ComponentOnFilm[] {
  const known = placed.get(plan);
  if (known) return known;
  const file = soundPart(of, checkCase(of));
  const made = componentsOnFilm({ file, evidence: evidenceFor(file, calibrateFilms(of)), plan, catalogue });
  placed.set(plan, made);
  return made;
}

/** The planned construct on one film; null where none is planned or drawn there. */
export function constructOn(planning: PlanningState, film: string): (OnOneFilm & InReach) | null {
  const reach = inReach(planning);
  const components = componentsOf(planning).filter((c) => c.film === film);
  if (!reach || components.length === 0) return null;
  const layers = planning.plan.drawings.find((d) => d.film === film)?.layers ?? [];
  return { ...reach, components, layers, parts: partsOf(reach.solved.construct, reach.catalogue) };
}

/** Films on which the construct can be moved. */
export const filmsToMoveOn = (planning: PlanningState): readonly string[] => [
  ...new Set(inReach(planning) ? componentsOf(planning).map((c) => c.film) : []),
];

/** The component that a grip belongs to. */
export const componentOf = ({ components }: OnOneFilm, grip: Grip): ComponentOnFilm | undefined =>
  components.find((c) => (c.bone === 'femur') === (grip === 'femur' || grip === 'femoral-stem'));

/** Keeps what the hand holds beside the tool. */
export function keepHold(desk: Desk, hold: Hold): void {
  const { tool } = desk.state.getState();
  if (tool?.is === 'construct') desk.state.setState({ tool: { ...tool, hold } });
}
