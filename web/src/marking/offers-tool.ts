import type { Mark } from '@gapline/core/landmarks/mark.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';
import type { CanalLevel } from '@gapline/core/stems/canal-trace.ts';
import { putCanal } from '../case/canal-edits.ts';
import type { Desk } from '../case/desk.tsx';
import { onFilm } from '../case/marking.ts';
import type { FilmTool, ToolInHand } from '../film/tool-in-hand.ts';
import type { Place } from '../film/viewport.ts';
import { number } from '../parts/words.ts';
import type { Offer, OfferedShape } from './offer.ts';

export type Offering = Extract<ToolInHand, { is: 'offers' }>;

export const offeredNow = (tool: Offering): Offer | null => tool.offers[tool.at] ?? null;

const HERE: Place = { x: 0, y: 0 };

/** The next offer; after the last one the tool is put down. */
function next(desk: Desk): void {
  const tool = desk.state.getState().tool;
  if (tool?.is !== 'offers') return;
  const at = tool.at + 1;
  desk.state.setState({ tool: at < tool.offers.length ? { ...tool, at, moved: HERE } : null, selected: null });
}

/**
 * Takes the offer: as it was found it is recorded as proposed and accepted, moved by hand as marked by hand. What was marked
 * before goes, and undo brings it back.
 */
export function takeOffer(desk: Desk): void {
  const tool = desk.state.getState().tool;
  const offer = tool?.is === 'offers' ? offeredNow(tool) : null;
  if (tool?.is !== 'offers' || !offer) return;
  const { session } = desk;
  session.commit(editsOf(session.store.getState().shown, tool, offer), `${offer.label}: ${howWords(tool)}`);
  next(desk);
}

/** Leaves the offer: nothing is kept of it. */
export const refuseOffer = next;

const isMoved = ({ moved }: Offering): boolean => moved.x !== 0 || moved.y !== 0;
const howWords = (tool: Offering): string => (isMoved(tool) ? 'proposed, moved by hand' : 'proposed and accepted');

export function editsOf(file: CaseFile, tool: Offering, { gives }: Offer): readonly Edit[] {
  const by = (p: Place): Place => onFilm({ x: p.x + tool.moved.x, y: p.y + tool.moved.y });
  if (gives.is === 'canal') {
    const levels = gives.levels.map(
      (l): CanalLevel => ({
        innerA: by(l.innerA),
        innerB: by(l.innerB),
        ...(l.outerA ? { outerA: by(l.outerA) } : {}),
        ...(l.outerB ? { outerB: by(l.outerB) } : {}),
      }),
    );
    return [putCanal(file, { bone: gives.bone, film: tool.film }, levels)];
  }
  const how: Mark['how'] = isMoved(tool) ? 'by-hand' : 'proposed-and-accepted';
  return gives.marks.map(({ landmark, side, points }) => ({
    kind: 'put-mark',
    mark: { landmark, side, film: tool.film, points: points.map(by), how },
  }));
}

/** Offers on the film what was found on it: dashed, one thing after the other. */
export function offersTool(desk: Desk, tool: Offering): FilmTool {
  const { state } = desk;
  const offer = offeredNow(tool);
  const nothing = (): void => undefined;
  return {
    handles: [],
    places: false,
    draws: false,
    line: offer ? lineOf(tool, offer) : 'Nothing was found.',
    ...(offer ? { keys: 'Enter takes it, Escape leaves it, arrow keys move it.' } : {}),
    offered: offer ? shapesOf(tool, offer) : [],
    accept: () => takeOffer(desk),
    nudge: (by) => {
      const now = state.getState().tool;
      if (now?.is === 'offers')
        state.setState({ tool: { ...now, moved: { x: now.moved.x + by.x, y: now.moved.y + by.y } } });
    },
    press: nothing,
    stroke: nothing,
    move: nothing,
    remove: nothing,
    close: nothing,
    back: nothing,
    leave: () => refuseOffer(desk),
  };
}

export const shapesOf = ({ moved }: Pick<Offering, 'moved'>, { shapes }: Offer): readonly OfferedShape[] =>
  shapes.map((s) => ({ ...s, points: s.points.map((p) => ({ x: p.x + moved.x, y: p.y + moved.y })) }));

const lineOf = (tool: Offering, { label, confidence }: Offer): string =>
  `${label} (${tool.at + 1} of ${tool.offers.length}), confidence ${number(100 * confidence, '%')} %.`;
