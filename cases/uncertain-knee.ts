import type { CaseFile } from '@gapline/core/plan/case.ts';
import { squareKnee } from './square-knee.ts';

/**
 * The square knee with all that a forecast asks for: how the components are held, chances, and the spreads that no film
 * gives. Few draws, so that tests of what hangs on it stay short.
 */
export function uncertainSquareKnee(change: Partial<Pick<CaseFile, 'kit' | 'forecast'>> = {}): CaseFile {
  const knee = squareKnee();
  return {
    ...knee,
    id: 'uncertain-knee',
    title: 'Uncertain knee, worked by hand',
    bone: { ...knee.bone, femurFixation: 'cemented', tibiaFixation: 'loose' },
    forecast: {
      seed: 11,
      draws: 100,
      femurWorseChance: 0.1,
      tibiaWorseChance: 0.2,
      fractureChance: 0.03,
      infectionChance: 0.04,
      spreads: { femurCanalMm: 0.5, tibiaCanalMm: 0.5 },
      ...change.forecast,
    },
    kit: { setList: 'example-hospital', surgeryOn: '2026-06-15', sharePct: 95, ...change.kit },
  };
}
