import type { Side } from '@gapline/core/landmarks/side.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { type DrawnPerson, drawPerson } from './anthropometry.ts';
import { chance } from './chance.ts';
import { drawReplacement } from './faults.ts';
import { buildLeg, type Leg } from './leg.ts';
import { kneeFrontScene, kneeSideScene, longLegScene, type Scene, type SceneChoices, skylineScene } from './scene.ts';
import type { Vary } from './vary.ts';

export interface PhantomRequest {
  /** Whole number. */
  readonly seed: number;
  readonly vary?: Vary;
}

/** A virtual person, usually with one failed replacement, before any film is taken. */
export interface Phantom {
  readonly seed: number;
  /** Side of the knee that the case is about. */
  readonly side: Side;
  readonly person: DrawnPerson;
  readonly right: Leg;
  readonly left: Leg;
  readonly vary: Vary;
}

/** One film to be taken. */
export interface PlannedFilm {
  /** Name in the case, and of the file without its ending. */
  readonly id: string;
  readonly role: CaseFilm['role'];
  readonly takenOn: string;
  readonly scene: Scene;
}

/** Draws the person and builds both legs; nothing is written. */
export function buildPhantom({ seed, vary = {} }: PhantomRequest): Phantom {
  const side: Side = vary.side ?? (chance(seed, 'side').uniform() < 0.5 ? 'right' : 'left');
  const person = drawPerson(seed, vary.sex);
  const build = (of: Side): Leg => {
    const replaced = !vary.native && (of === side || vary.other === 'replaced');
    return buildLeg(person[of], replaced ? drawReplacement(person[of], seed + (of === side ? 0 : 7919), vary) : null);
  };
  return { seed, side, person, right: build('right'), left: build('left'), vary };
}

const TAKEN_ON = { present: '2025-03-10', before: '2016-05-23' } as const;

function positioning({ vary, seed, person }: Phantom): SceneChoices {
  const c = chance(seed, 'positioning');
  const drawn = { rotation: c.normal(0, 3, 2), flexion: Math.abs(c.normal(0, 4, 2)) };
  return {
    ideal: vary.ideal ?? false,
    rotationDeg: vary.rotation ?? drawn.rotation,
    flexionDeg: vary.flexion ?? drawn.flexion,
    ...(vary.siderotation === undefined ? {} : { sideRotationDeg: vary.siderotation }),
    mag: vary.mag,
    ball: vary.ball ?? true,
    ballDepthMm: vary.balldepth ?? 0,
    resolution: vary.resolution ?? 1,
    softIndex: person.softIndex,
  };
}

/** The films of a phantom: both legs standing, the knee from in front, from the side and skyline; on request one of before. */
export function plannedFilms(phantom: Phantom): PlannedFilm[] {
  const { vary, person, side } = phantom;
  const choices = positioning(phantom);
  const leg = phantom[side];
  const now = [
    longLegScene(phantom.right, phantom.left, choices),
    kneeFrontScene(leg, side, choices),
    kneeSideScene(leg, side, choices),
    skylineScene(leg, side, choices),
  ].map((scene): PlannedFilm => ({ id: scene.view, role: 'present', takenOn: TAKEN_ON.present, scene }));
  if (!vary.earlier) return now;
  const scene = kneeFrontScene(buildLeg(person[side], null), side, { ...choices, rotationDeg: 0, ballDepthMm: 0 });
  return [...now, { id: 'ap-before', role: 'before-first-replacement', takenOn: TAKEN_ON.before, scene }];
}
