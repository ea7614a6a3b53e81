import type { Known } from '@gapline/core/measure/known.ts';

/** What a key does on a yes-or-no line: an answer, a move to another line, or both. */
export interface TriWish {
  readonly answer: Known | null;
  /** Lines to move by: 1 = the next one. */
  readonly move: -1 | 0 | 1;
}

const ORDER: readonly Known[] = ['yes', 'no', 'unknown'];
const LETTERS: Readonly<Record<string, Known>> = { y: 'yes', n: 'no', u: 'unknown', '?': 'unknown' };

/** Y, N, U (or ?) answer and go on; left and right step through the answers and stay; up and down only move. */
export function triKey(key: string, now: Known): TriWish | null {
  const letter = LETTERS[key.toLowerCase()];
  if (letter) return { answer: letter, move: 1 };
  if (key === 'ArrowUp') return { answer: null, move: -1 };
  if (key === 'ArrowDown') return { answer: null, move: 1 };
  if (key !== 'ArrowLeft' && key !== 'ArrowRight') return null;
  const step = ORDER.indexOf(now) + (key === 'ArrowRight' ? 1 : -1);
  return { answer: ORDER[Math.min(2, Math.max(0, step))]!, move: 0 };
}
