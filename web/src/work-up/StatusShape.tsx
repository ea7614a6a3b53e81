/** Met, not met, not known as a tick, a cross and an open ring: readable without colour. */
export function StatusShape({ is }: { readonly is: 'met' | 'not-met' | 'not-known' }) {
  return (
    <svg className={`status-shape is-${is}`} viewBox="0 0 16 16" aria-hidden="true">
      {is === 'met' && <path d="M2.5 8.5 6.5 12.5 13.5 4" />}
      {is === 'not-met' && <path d="M4 4l8 8M12 4l-8 8" />}
      {is === 'not-known' && <circle cx="8" cy="8" r="4.5" />}
    </svg>
  );
}
