import type { ConstructEffect } from '@gapline/core/gaps/construct.ts';
import { number, signed } from '../parts/words.ts';

const CELL = 92;
/** Drawn height of one millimetre of gap. */
const MM = 4;

/** Expected laxity: extension and flexion down, medial and lateral across. A gap opens, a tight side overlaps. */
export function GapSquare({ effect }: { readonly effect: ConstructEffect }) {
  const rows = [
    ['Extension, 0°', effect.extensionLaxityMm],
    ['Flexion, 90°', effect.flexionLaxityMm],
  ] as const;
  return (
    <table className="gaps">
      <thead>
        <tr>
          <td />
          <th scope="col">Medial</th>
          <th scope="col">Lateral</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(([label, laxity]) => (
          <tr key={label}>
            <th scope="row">{label}</th>
            {(['medial', 'lateral'] as const).map((side) => (
              <td key={side}>
                <GapPicture mm={laxity[side]} />
                <span className="gap-number">{signed(laxity[side])} mm</span>
                <span className="gap-word">{word(laxity[side])}</span>
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const word = (mm: number): string => (mm < -0.05 ? `tight by ${number(-mm)}` : mm < 0.05 ? 'just taut' : 'loose');

function GapPicture({ mm }: { readonly mm: number }) {
  const half = Math.min(Math.max(mm, -6), 8) * (MM / 2);
  return (
    <svg className="gap-picture" viewBox={`0 0 ${CELL} 56`} aria-hidden="true">
      <path className="gap-femur" d={`M6 0V${16 - half}Q46 ${30 - half} 86 ${16 - half}V0Z`} />
      <path
        className={`gap-tibia${mm < -0.05 ? ' is-tight' : ''}`}
        d={`M6 56V${38 + half}Q46 ${26 + half} 86 ${38 + half}V56Z`}
      />
    </svg>
  );
}
