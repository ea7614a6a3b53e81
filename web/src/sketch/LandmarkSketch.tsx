import type { LandmarkId } from '@gapline/core/landmarks/landmark-table.ts';
import type { Side } from '@gapline/core/landmarks/side.ts';
import { PLACES, type SketchName } from './places.ts';

const BOX: Readonly<Record<SketchName, string>> = {
  leg: '0 0 80 240',
  'knee-front': '0 0 120 150',
  'knee-side': '0 0 120 150',
  skyline: '0 0 120 120',
  'slice-femur': '0 0 120 110',
  'slice-tibia': '0 0 120 110',
};

const WIDTH: Readonly<Record<SketchName, number>> = {
  leg: 80,
  'knee-front': 120,
  'knee-side': 120,
  skyline: 120,
  'slice-femur': 120,
  'slice-tibia': 120,
};

const LINES: Readonly<Record<SketchName, readonly string[]>> = {
  leg: [
    'M40 30A11 11 0 1 1 55 33L36 52Q37 70 42 100Q44 110 51 116Q52 126 44 127Q39 122 34 127Q25 126 25 117Q30 108 30 100Q25 70 22 44Q24 36 32 38Z',
    'M25 131H52Q50 142 46 150Q44 180 45 214L46 222H33L34 214Q35 180 33 150Q27 142 25 131Z',
    'M24 137Q20 140 24 150L29 228Q33 232 32 222L28 150Q29 140 24 137Z',
    'M33 224H46L49 232H31Z',
  ],
  'knee-front': [
    'M46 0V30Q44 46 24 58Q17 66 23 76Q32 87 42 85Q52 83 55 75Q60 70 65 75Q68 83 78 85Q90 87 98 76Q103 66 97 57Q92 50 91 46Q76 42 74 30V0',
    'M26 95H94Q94 106 84 116Q74 126 73 150H47Q46 126 36 116Q26 106 26 95Z',
    'M26 91H94V95H26Z',
    'M20 103Q12 108 16 118L20 150H28L27 118Q28 107 20 103Z',
  ],
  'knee-side': [
    'M56 0V32Q50 44 48 60Q48 78 62 86Q78 92 90 84Q101 74 98 62Q94 50 84 46Q80 40 79 30V0',
    'M33 42Q24 50 26 62Q28 70 31 72Q35 68 37 64Q40 54 37 46Z',
    'M46 92L94 96Q94 104 86 112Q80 122 78 150H51Q49 122 43 114Q42 110 46 106Q44 100 46 92Z',
    'M31 72Q36 92 43 112',
  ],
  skyline: [
    'M30 42Q40 18 60 16Q82 18 92 44Q78 54 62 56Q44 54 30 42Z',
    'M12 120V86Q16 62 32 60Q46 62 62 74Q76 66 88 64Q104 66 108 88V120',
  ],
  'slice-femur': [
    'M11 54Q14 38 30 30Q46 24 60 34Q74 28 92 34Q106 40 109 50Q104 54 107 60Q108 84 88 94Q74 92 72 74Q60 62 48 72Q46 90 34 91Q14 82 11 54Z',
    'M40 26Q60 6 80 28',
  ],
  'slice-tibia': [
    'M14 58Q14 38 34 30Q38 16 48 15Q56 20 66 24Q104 34 106 60Q106 84 88 92Q72 90 60 80Q46 90 32 90Q14 82 14 58Z',
    'M22 58Q24 42 44 38Q60 34 78 38Q98 44 98 62Q98 80 84 88Q70 84 60 76Q48 84 36 86Q22 78 22 58Z',
  ],
};

/** The small drawing beside the pick text: where the landmark lies. */
export function LandmarkSketch({ landmark, side }: { readonly landmark: LandmarkId; readonly side: Side }) {
  const { on, at } = PLACES[landmark];
  // Drawn for the right side; a left one is its mirror image. From the side both look alike.
  const mirror = side === 'left' && on !== 'knee-side' ? `matrix(-1 0 0 1 ${WIDTH[on]} 0)` : undefined;
  return (
    <svg className={`sketch sketch-${on}`} viewBox={BOX[on]} aria-hidden="true">
      <g transform={mirror}>
        {LINES[on].map((d) => (
          <path key={d} className="sketch-bone" d={d} />
        ))}
        {landmark === 'calibration-ball' && <circle className="sketch-bone" cx="108" cy="118" r="6" />}
        {at.map(([x, y]) => (
          <g key={`${x} ${y}`}>
            <circle className="sketch-halo" cx={x} cy={y} r={at.length > 1 ? 4 : 8} />
            <circle className="sketch-dot" cx={x} cy={y} r={at.length > 1 ? 2 : 3.4} />
          </g>
        ))}
      </g>
    </svg>
  );
}
