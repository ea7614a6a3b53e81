/** Where a part of a case stands. */
export type StandingIs = 'settled' | 'open' | 'conflict';

export const STANDING_WORDS: Readonly<Record<StandingIs, string>> = {
  settled: 'settled',
  open: 'open',
  conflict: 'in conflict',
};

/** Shape besides colour: full disc, open ring, triangle. */
export function StandingShape({ is }: { readonly is: StandingIs }) {
  return (
    <svg className={`standing-shape is-${is}`} viewBox="0 0 16 16" aria-hidden="true">
      {is === 'settled' && <circle cx="8" cy="8" r="6" />}
      {is === 'open' && <circle cx="8" cy="8" r="5" />}
      {is === 'conflict' && <path d="M8 1.5 15 14H1Z" />}
    </svg>
  );
}
