import { mainLetter, type PatientVector, type SliceStack } from '@gapline/core/landmarks/slice-stack.ts';

/** How slices are shown: the patient's right at the viewer's left and the front on top, whichever way the file has them. */
export interface Shown {
  readonly mirrored: boolean;
  readonly turnDeg: 0 | 180;
}

export function shownUpright({ along, down }: Pick<SliceStack, 'along' | 'down'>): Shown {
  const headDown = ['A', 'F'].includes(mainLetter(down));
  const backwards = ['R', 'P'].includes(mainLetter(along));
  // Half a turn exchanges left and right as well; a mirror image undoes that.
  return { mirrored: backwards !== headDown, turnDeg: headDown ? 180 : 0 };
}

const WORDS = { L: 'left', R: 'right', A: 'front', P: 'back', H: 'head', F: 'feet' } as const;

export interface Edge {
  readonly letter: keyof typeof WORDS;
  readonly word: string;
}

const back = (v: PatientVector): PatientVector => [-v[0], -v[1], -v[2]];
const edge = (v: PatientVector): Edge => {
  const letter = mainLetter(v);
  return { letter, word: WORDS[letter] };
};

/** What lies at each edge of the picture as it is shown, from the vectors of the file. */
export function edgesOf(stack: Pick<SliceStack, 'along' | 'down'>, shown: { mirrored: boolean; turnDeg: number }) {
  const turned = shown.turnDeg === 180;
  const right = shown.mirrored !== turned ? back(stack.along) : stack.along;
  const bottom = turned ? back(stack.down) : stack.down;
  return { left: edge(back(right)), right: edge(right), top: edge(back(bottom)), bottom: edge(bottom) };
}
