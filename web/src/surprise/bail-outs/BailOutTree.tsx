import type { BailOut } from '@gapline/core/forecast/forecast-types.ts';
import { pct } from '@gapline/core/plan/told/shares.ts';
import { useMemo, useRef } from 'react';
import { useWidth } from '../use-width.ts';
import { type Leaf, layTree, leafWords, type PlacedLeaf, type PlacedQuestion, type PlacedWay } from './tree-layout.ts';

interface Props {
  readonly tree: BailOut;
  /** The leaf that is drawn on the film. */
  readonly drawn: Leaf | null;
  readonly onDraw: (leaf: Leaf, letter: string) => void;
}

/** The tree as a picture: every question, both ways on as thick as their share, and what is done at each end. */
export function BailOutTree({ tree, drawn, onDraw }: Props) {
  const box = useRef<HTMLDivElement>(null);
  const width = useWidth(box, 640);
  const layout = useMemo(() => layTree(tree, width), [tree, width]);
  return (
    <div className="tree" ref={box}>
      <div className="tree-sheet" style={{ width: layout.width, height: layout.height }}>
        <svg width={layout.width} height={layout.height} aria-hidden="true">
          {layout.ways.map((way) => (
            <Way key={`${way.from.x} ${way.from.y} ${way.answer}`} way={way} />
          ))}
        </svg>
        {layout.questions.map((q) => (
          <QuestionBox key={`${q.x} ${q.y}`} placed={q} />
        ))}
        {layout.leaves.map((l) => (
          <LeafBox key={l.letter} placed={l} isDrawn={l.leaf === drawn} onDraw={onDraw} />
        ))}
      </div>
    </div>
  );
}

function Way({ way: { answer, from, to, thick } }: { readonly way: PlacedWay }) {
  const middle = (from.x + to.x) / 2;
  return (
    <g className={`tree-way is-${answer}`}>
      <path d={`M${from.x} ${from.y}C${middle} ${from.y} ${middle} ${to.y} ${to.x} ${to.y}`} strokeWidth={thick} />
      <text x={from.x + 16} y={answer === 'yes' ? from.y - 14 : from.y + 24} textAnchor="middle">
        {answer}
      </text>
    </g>
  );
}

const placeOf = ({ x, y, width, height }: PlacedLeaf | PlacedQuestion) => ({ left: x, top: y, width, height });

function QuestionBox({ placed }: { readonly placed: PlacedQuestion }) {
  return (
    <p className="tree-question" style={placeOf(placed)} title={`${placed.question.question}?`}>
      <Lines lines={placed.lines} />
    </p>
  );
}

interface LeafProps {
  readonly placed: PlacedLeaf;
  readonly isDrawn: boolean;
  readonly onDraw: Props['onDraw'];
}

function LeafBox({ placed, isDrawn, onDraw }: LeafProps) {
  const { leaf, letter, lines } = placed;
  const inside = (
    <>
      <span className="tree-leaf-head">
        <span className="tree-letter">{letter}</span>
        <span className="tree-share">{pct(leaf.share)}</span>
      </span>
      <Lines lines={lines} />
      <span className="tree-leaf-bar" style={{ width: `${Math.max(1, leaf.share * 100)}%` }} />
    </>
  );
  if (!leaf.construct)
    return (
      <p className="tree-leaf is-none" style={placeOf(placed)}>
        {inside}
      </p>
    );
  return (
    <button
      type="button"
      className="tree-leaf"
      style={placeOf(placed)}
      aria-pressed={isDrawn}
      title={leafWords(leaf)}
      onClick={() => onDraw(leaf, letter)}
    >
      {inside}
    </button>
  );
}

/** Line by line as they were laid, so that the words fill the box that was made for them. */
const Lines = ({ lines }: { readonly lines: readonly string[] }) => (
  <span className="tree-words">{lines.join('\n')}</span>
);
