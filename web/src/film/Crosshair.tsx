import type { Place } from './viewport.ts';

/** The crosshair that keys move, drawn in an overlay of the picture; nothing where there is none. */
export function Crosshair({ at }: { readonly at: Place | null }) {
  if (!at) return null;
  return <path className="crosshair" d={`M${at.x - 24} ${at.y}h18m12 0h18M${at.x} ${at.y - 24}v18m0 12v18`} />;
}
