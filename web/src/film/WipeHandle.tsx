import { type KeyboardEvent, type PointerEvent, useRef } from 'react';

interface Props {
  /** How much of the width the earlier film takes, 0 to 1. */
  readonly share: number;
  /** Width of the area, screen pixels. */
  readonly width: number;
  readonly onShare: (share: number) => void;
}

const KEY_STEPS: Readonly<Record<string, number>> = {
  ArrowLeft: -0.02,
  ArrowDown: -0.02,
  ArrowRight: 0.02,
  ArrowUp: 0.02,
  PageDown: -0.1,
  PageUp: 0.1,
  Home: -1,
  End: 1,
};

/** The line between before and after: dragged by mouse, finger or pen, or moved by keys. */
export function WipeHandle({ share, width, onShare }: Props) {
  const held = useRef<number | null>(null);
  const to = (next: number): void => onShare(Math.min(Math.max(next, 0), 1));
  const onKey = (event: KeyboardEvent): void => {
    const step = KEY_STEPS[event.key];
    if (step === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    to(share + step);
  };
  const onMove = (event: PointerEvent): void => {
    if (held.current !== event.pointerId || !event.currentTarget.parentElement) return;
    const box = event.currentTarget.parentElement.getBoundingClientRect();
    to((event.clientX - box.left) / Math.max(width, 1));
  };
  const percent = Math.round(100 * share);
  return (
    <div
      className="wipe-handle"
      style={{ left: `${100 * share}%` }}
      role="slider"
      tabIndex={0}
      aria-label="Line between before and after"
      aria-valuemin={0}
      aria-valuemax={100}
      aria-valuenow={percent}
      aria-valuetext={`${percent} % before`}
      onKeyDown={onKey}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        held.current = event.pointerId;
      }}
      onPointerMove={onMove}
      onPointerUp={() => {
        held.current = null;
      }}
      onPointerCancel={() => {
        held.current = null;
      }}
    >
      <span className="wipe-grip" aria-hidden="true">
        ◂ ▸
      </span>
    </div>
  );
}
