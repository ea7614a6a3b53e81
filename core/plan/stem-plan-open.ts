import type { Warning } from '../measure/outcome.ts';
import type { Missing } from './plan.ts';
import type { StemPlan, StemsOfBone } from './stem-plan.ts';
import type { StemSeats } from './stem-plan-seats.ts';

const VIEW_OPEN = {
  ap: 'whether a stem passes from in front, its tilt into varus or valgus, the offset to either side',
  lateral: 'whether a stem passes the bow, the flexion or slope that it forces, the offset front to back',
} as const;
const VIEW_NAME = { ap: 'from in front', lateral: 'from the side' } as const;

/** Views that are not traced: one line a bone. */
export function unknownOf(stems: StemsOfBone): readonly Missing[] {
  const open = (['ap', 'lateral'] as const).filter((view) => !stems[view]);
  if (open.length === 0) return [];
  const changes = open.map((view) => VIEW_OPEN[view]).join('; ');
  return [
    {
      what: `Canal of the ${stems.bone} ${open.map((view) => VIEW_NAME[view]).join(' and ')}`,
      field: 'canals',
      wouldChange: `${changes.charAt(0).toUpperCase()}${changes.slice(1)}.`,
    },
  ];
}

/** An offset front to back wants to know where the component holds its stem. */
export const bossUnknown = ({ femur }: StemSeats): readonly Missing[] =>
  femur.behindFlangeMm === null
    ? [
        {
          what: 'Where the femoral component holds its stem, front to back',
          field: 'catalogue.femurs.stemBehindFlangeMm',
          wouldChange: 'Size and direction of the femoral offset; its part to either side is given.',
        },
      ]
    : [];

/**
 * What the surgeon must see of the stems: traces that could not be used, a proposed stem that does not pass where it would lie, that
 * ends short of a weak spot, or whose tip comes too near to other metal.
 */
export const stemWarnings = ({ femur, tibia }: Pick<StemPlan, 'femur' | 'tibia'>): readonly Warning[] =>
  [femur, tibia].flatMap((stems) => [...stems.refused, ...aboutChosen(stems), ...plateauBehind(stems)]);

function aboutChosen({ bone, chosen }: StemsOfBone): readonly Warning[] {
  if (!chosen) return [];
  const warn = (code: string, message: string, mend: string): Warning => ({
    code,
    message,
    field: `stems.${bone}`,
    mend,
  });
  const found: Warning[] = [];
  const name = `${chosen.name} in the ${bone}`;
  if (chosen.verdict === 'does-not-pass')
    found.push(warn('stem-does-not-pass', `${name}: ${chosen.says}.`, 'Take one of the candidates.'));
  if (chosen.bypass.some((b) => b.standing === 'not-met') && chosen.verdict !== 'does-not-pass')
    found.push(warn('stem-too-short', `${name}: ${chosen.says}.`, 'Take a longer stem, or protect the weak spot.'));
  if (chosen.metal?.standing === 'not-met')
    found.push(
      warn(
        'metal-too-near',
        `${name}: its tip ends ${chosen.metal.gapMm.toFixed(0)} mm from other metal; ${chosen.metal.wantedMm.toFixed(0)} mm are wanted.`,
        'Take a shorter stem, or bridge the bone between.',
      ),
    );
  return found;
}

/** Share of the tray's depth from which a long tibial stem is looked at again, %, and what counts as long, mm (STM-10). */
const PLATEAU_BEHIND = { pct: 30, lengthMm: 60 } as const;

/** A plateau that lies far behind its canal drives a tibial stem into the posterior cortex. */
function plateauBehind({ bone, chosen, lateral }: StemsOfBone): readonly Warning[] {
  const pct = lateral?.axisSharePct ?? null;
  if (bone !== 'tibia' || !chosen || pct === null || pct <= PLATEAU_BEHIND.pct) return [];
  if (chosen.lengthMm < PLATEAU_BEHIND.lengthMm) return [];
  return [
    {
      code: 'plateau-behind-canal',
      message: `The tray's middle lies ${pct.toFixed(0)} % of its depth behind the canal of the tibia; 23.5 % (13 to 33) is usual.`,
      field: 'stems.tibia',
      mend: 'Look at the posterior cortex along the stem: an offset coupler or a stem under 60 mm.',
    },
  ];
}
