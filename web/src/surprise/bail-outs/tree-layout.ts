import type { BailOut } from '@gapline/core/forecast/forecast-types.ts';

export type Leaf = Extract<BailOut, { kind: 'do' }>;
export type Question = Extract<BailOut, { kind: 'ask' }>;

export interface PlacedLeaf {
  readonly leaf: Leaf;
  /** A, B, C from top to bottom: what the picture and the words are matched by. */
  readonly letter: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly lines: readonly string[];
}

export interface PlacedQuestion {
  readonly question: Question;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly lines: readonly string[];
}

/** The way from a question to what follows, as thick as its share. */
export interface PlacedWay {
  readonly answer: 'yes' | 'no';
  readonly from: { readonly x: number; readonly y: number };
  readonly to: { readonly x: number; readonly y: number };
  readonly thick: number;
  readonly share: number;
}

export interface TreeLayout {
  readonly width: number;
  readonly height: number;
  readonly leaves: readonly PlacedLeaf[];
  readonly questions: readonly PlacedQuestion[];
  readonly ways: readonly PlacedWay[];
}

/** Sizes in screen pixels; a letter is about as wide as this at the tree's text size. */
const LETTER = 7.5;
const LINE = 17;
const PAD = 9;
const GAP_Y = 10;
const GAP_X = 34;
const HEAD = 22;
const MOST_LINES = 6;
const THICKEST = 22;

/** Words of a leaf: what is done, as short as the picture allows. */
export const leafWords = (leaf: Leaf): string => {
  if (leaf.differs !== '') return leaf.differs;
  return leaf.construct ? 'as planned' : 'no construct';
};

/**
 * Places the tree from left to right: questions in columns by their depth, leaves in one column at the right, the yes
 * above the no. Pure: the same tree and width give the same picture. Screen pixels, origin top left.
 */
export function layTree(tree: BailOut, width: number): TreeLayout {
  const depth = depthOf(tree);
  const questionWidth = depth === 0 ? 0 : Math.min(150, Math.max(96, (width * 0.58) / depth - GAP_X));
  const leafX = depth * (questionWidth + GAP_X);
  const leafWidth = Math.max(150, width - leafX - 1);
  const leaves: PlacedLeaf[] = [];
  const questions: PlacedQuestion[] = [];
  const ways: PlacedWay[] = [];
  let next = 1;

  /** Lays what hangs on a node and gives the place where the way to it ends. */
  const lay = (node: BailOut, level: number): { readonly x: number; readonly y: number } => {
    if (node.kind === 'do') {
      const lines = wrapped(leafWords(node), Math.floor((leafWidth - 2 * PAD) / LETTER));
      const height = HEAD + lines.length * LINE + 2 * PAD - 4;
      const placed = {
        leaf: node,
        letter: letterOf(leaves.length),
        x: leafX,
        y: next,
        width: leafWidth,
        height,
        lines,
      };
      leaves.push(placed);
      next += height + GAP_Y;
      return { x: leafX, y: placed.y + height / 2 };
    }
    const yes = lay(node.yes, level + 1);
    const no = lay(node.no, level + 1);
    const lines = wrapped(node.question, Math.floor((questionWidth - 2 * PAD) / LETTER), 6);
    const height = lines.length * LINE + 2 * PAD;
    const x = level * (questionWidth + GAP_X);
    const middle = (yes.y + no.y) / 2;
    questions.push({ question: node, x, y: middle - height / 2, width: questionWidth, height, lines });
    const from = { x: x + questionWidth, y: middle };
    ways.push({ answer: 'yes', from, to: yes, share: node.yes.share, thick: thickOf(node.yes.share) });
    ways.push({ answer: 'no', from, to: no, share: node.no.share, thick: thickOf(node.no.share) });
    return { x, y: middle };
  };
  lay(tree, 0);
  const low = Math.max(next - GAP_Y, ...questions.map((q) => q.y + q.height)) + 1;
  const high = Math.min(0, ...questions.map((q) => q.y - 1));
  return moved({ width: Math.max(width, leafX + leafWidth + 1), height: low - high, leaves, questions, ways }, -high);
}

const thickOf = (share: number): number => Math.max(1.5, share * THICKEST);

/** A tall question beside few leaves may stand over the edge: the whole moves down by that much. */
function moved(tree: TreeLayout, dy: number): TreeLayout {
  if (dy === 0) return tree;
  const down = <T extends { readonly y: number }>(at: T): T => ({ ...at, y: at.y + dy });
  return {
    ...tree,
    leaves: tree.leaves.map(down),
    questions: tree.questions.map(down),
    ways: tree.ways.map((way) => ({ ...way, from: down(way.from), to: down(way.to) })),
  };
}

export const depthOf = (node: BailOut): number =>
  node.kind === 'do' ? 0 : 1 + Math.max(depthOf(node.yes), depthOf(node.no));

/** Leaves from top to bottom, the yes before the no, as they are lettered. */
export const leavesOf = (node: BailOut): readonly Leaf[] =>
  node.kind === 'do' ? [node] : [...leavesOf(node.yes), ...leavesOf(node.no)];

/** A to Z, then AA, AB ... */
export const letterOf = (index: number): string =>
  index < 26 ? String.fromCharCode(65 + index) : letterOf(Math.floor(index / 26) - 1) + letterOf(index % 26);

/** Words in lines of at most so many letters; what does not fit in the last line ends with an ellipsis. */
export function wrapped(words: string, letters: number, most = MOST_LINES): readonly string[] {
  const room = Math.max(letters, 6);
  const lines: string[] = [];
  for (const word of words.split(/\s+/).filter(Boolean)) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= room) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  if (lines.length <= most) return lines;
  const kept = lines.slice(0, most);
  const end = kept[most - 1] ?? '';
  kept[most - 1] = `${end.length + 2 <= room ? `${end} ` : end.slice(0, room - 1)}…`;
  return kept;
}
