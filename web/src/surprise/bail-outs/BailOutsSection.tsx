import { otherwise } from '@gapline/core/forecast/bail-out-words.ts';
import type { BailOut } from '@gapline/core/forecast/forecast-types.ts';
import { pct } from '@gapline/core/plan/told/shares.ts';
import { useMemo } from 'react';
import { useDesk, useDeskState } from '../../case/desk.tsx';
import { bailOutsStanding } from '../becomes/becomes-standing.ts';
import { useForecasting } from '../forecast/forecasting-context.tsx';
import { NoForecast } from '../forecast/NoForecast.tsx';
import { SurpriseSection } from '../SurpriseSection.tsx';
import { BailOutTree } from './BailOutTree.tsx';
import { type Leaf, leafWords, leavesOf, letterOf } from './tree-layout.ts';

/** If it turns out otherwise: the tree as a picture and in words; a leaf that is tapped is drawn on the film. */
export function BailOutsSection() {
  const answer = useForecasting((s) => s.answer);
  return (
    <SurpriseSection id="bail-outs" title="Bail-outs" standing={bailOutsStanding(answer)}>
      {answer?.forecast.ok ? <BailOuts tree={answer.forecast.value.forecast.bailOuts} /> : <NoForecast />}
    </SurpriseSection>
  );
}

function BailOuts({ tree }: { readonly tree: BailOut }) {
  const { state } = useDesk();
  const onTrial = useDeskState((s) => s.onTrial);
  const leaves = useMemo(() => leavesOf(tree), [tree]);
  const drawn = leaves.find((l) => onTrial !== null && l.construct === onTrial.construct) ?? null;
  const draw = (leaf: Leaf, letter: string): void => {
    const { construct } = leaf;
    const words = `Bail-out ${letter}, ${pct(leaf.share)} of openings: ${leafWords(leaf)}`;
    state.setState({ onTrial: construct === null || leaf === drawn ? null : { construct, words } });
  };
  return (
    <>
      <p className="said-line">
        Questions that theatre answers, from left to right. A way is as thick as the share of openings that take it. Tap
        an end to see it on the film.
      </p>
      <BailOutTree tree={tree} drawn={drawn} onDraw={draw} />
      <h3>In words</h3>
      <ol className="bail-outs">
        {ways(tree).map(({ leaf, asked }, i) => (
          <li key={letterOf(i)}>
            <span className="tree-letter">{letterOf(i)}</span>
            <p>
              {sentence(asked, leaf)}
              {leaf.pure < 0.8 && leaf.construct && (
                <small> It holds in {pct(leaf.pure)} of these; the rest want something else.</small>
              )}
            </p>
            <span className="share-number">{pct(leaf.share)}</span>
          </li>
        ))}
      </ol>
    </>
  );
}

interface Way {
  readonly leaf: Leaf;
  /** Questions on the way, with their answers. */
  readonly asked: readonly string[];
}

const ways = (node: BailOut, asked: readonly string[] = []): readonly Way[] =>
  node.kind === 'do'
    ? [{ leaf: node, asked }]
    : [...ways(node.yes, [...asked, node.question]), ...ways(node.no, [...asked, otherwise(node.question)])];

function sentence(asked: readonly string[], leaf: Leaf): string {
  const what = leafWords(leaf);
  if (asked.length === 0) return `Whatever is found: ${what}.`;
  return `If ${asked.join(' and ')}: ${what}.`;
}
