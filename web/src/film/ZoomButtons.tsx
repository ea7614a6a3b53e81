type ZoomWish = { readonly kind: 'zoom'; readonly factor: number } | { readonly kind: 'fit' };

interface Props {
  /** What is shown whole: a film, a slice. */
  readonly what: string;
  readonly onWish: (wish: ZoomWish) => void;
}

/** Smaller, larger, whole; each has a key as well. */
export function ZoomButtons({ what, onWish }: Props) {
  return (
    <>
      <button type="button" title="Smaller (−)" onClick={() => onWish({ kind: 'zoom', factor: 0.8 })}>
        <span aria-hidden="true">−</span>
        <span className="unseen">Smaller</span>
      </button>
      <button type="button" title="Larger (+)" onClick={() => onWish({ kind: 'zoom', factor: 1.25 })}>
        <span aria-hidden="true">+</span>
        <span className="unseen">Larger</span>
      </button>
      <button type="button" title={`Whole ${what} (0)`} onClick={() => onWish({ kind: 'fit' })}>
        Whole
      </button>
    </>
  );
}
