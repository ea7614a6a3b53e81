import { type Place, placed, toScreen, type Viewport } from './viewport.ts';

/** How a film lies on the screen, in millimetres: what linked films share. */
export interface Pose {
  /** Millimetres in the patient for a screen pixel. */
  readonly mmPerScreenPx: number;
  /** From the middle of the area to the anchor, screen pixels. */
  readonly anchor: Place;
}

/** A film's anchor, film pixels, and its scale across, mm a film pixel. */
export interface Held {
  readonly at: Place;
  readonly mmPerPx: number;
}

export function poseOf(view: Viewport, held: Held): Pose {
  const at = toScreen(view, held.at);
  return {
    mmPerScreenPx: held.mmPerPx / view.scale,
    anchor: { x: at.x - view.width / 2, y: at.y - view.height / 2 },
  };
}

/** The view that takes up the pose of another film; without `sideways` only its height and its size. */
export function follow(view: Viewport, pose: Pose, { held, sideways }: { held: Held; sideways: boolean }): Viewport {
  const scale = held.mmPerPx / pose.mmPerScreenPx;
  const own = toScreen(view, held.at).x - view.width / 2;
  // Sideways the anchor keeps its millimetres from the middle.
  const x = sideways ? pose.anchor.x : (own * scale) / view.scale;
  return placed({ ...view, scale }, held.at, { x, y: pose.anchor.y });
}
