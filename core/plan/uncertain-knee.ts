import type { RemovalEstimate } from '../bone/bone-map.ts';
import { removalEstimate } from '../bone/removal-loss.ts';
import { measuredFields, movedState } from '../forecast/field.ts';
import { FIELD_LABELS } from '../forecast/lengths.ts';
import type { Chance, RemovalLoss, SharedError, SpreadField, UncertainKnee } from '../forecast/uncertain-knee.ts';
import type { BoneState } from '../gaps/bone-state.ts';
import { cannot, type Outcome, ok, type Reason } from '../measure/outcome.ts';
import type { CaseFile, ForecastSettings } from './case.ts';
import type { Missing, Origin, Plan } from './plan.ts';
import { JOINT_LINE_CAUSE } from './shared-spread.ts';

type Surface = keyof UncertainKnee['removal'];

const SURFACES: Readonly<
  Record<
    Surface,
    {
      readonly estimate: RemovalEstimate['surface'];
      readonly label: string;
      readonly field: 'femurDistalMm' | 'femurPosteriorMm' | 'tibiaMm';
    }
  >
> = {
  femurDistal: { estimate: 'femur-distal', label: 'distal femur', field: 'femurDistalMm' },
  femurPosterior: { estimate: 'femur-posterior', label: 'posterior femur', field: 'femurPosteriorMm' },
  tibia: { estimate: 'tibia', label: 'tibia', field: 'tibiaMm' },
};
const SURFACE_NAMES = Object.keys(SURFACES) as readonly Surface[];

/** Standard deviation of a symmetric triangular distribution times this is half its width. */
const HALF_WIDTH = Math.sqrt(6);

/** Spread stated by hand for the loss at removal of a surface, under this name in `forecast.spreads`. */
const lossSpreadField = (surface: Surface): string => `removalLossMm.${surface}`;

/**
 * Loss at removal of one surface (FOR-4): by how the component is held, the practice's own estimate before the default;
 * a loss stated for this knee takes the place of the most likely one, and least and most keep their distance from it.
 * Without a known fixation the stated loss with a spread stated by hand; null = neither is known.
 */
function removalOf({ bone, forecast }: CaseFile, surface: Surface): RemovalLoss | null {
  const stated = bone?.removalLossMm?.[surface];
  const fixation = surface === 'tibia' ? bone?.tibiaFixation : bone?.femurFixation;
  if (fixation) {
    const e = removalEstimate(fixation, SURFACES[surface].estimate, bone?.removalEstimates);
    const by = stated === undefined ? 0 : stated - e.likelyMm;
    const from = stated === undefined ? e.from : `${e.from}; most likely as stated for this knee`;
    return {
      leastMm: Math.max(0, e.leastMm + by),
      likelyMm: e.likelyMm + by,
      mostMm: e.mostMm + by,
      from,
    };
  }
  const sd = forecast?.spreads?.[lossSpreadField(surface)];
  if (stated === undefined || sd === undefined) return null;
  return {
    leastMm: Math.max(0, stated - HALF_WIDTH * sd),
    likelyMm: stated,
    mostMm: stated + HALF_WIDTH * sd,
    from: 'stated in the case, with its spread',
  };
}

/** What is left of a field's spread once its named causes are taken out, mm or deg. */
function aloneSd({ sd, shared }: Origin): number | null {
  if (sd === null) return null;
  const named = Object.values(shared ?? {}).reduce((variance, share) => variance + share ** 2, 0);
  return Math.sqrt(Math.max(0, sd ** 2 - named));
}

/** Causes that move a field, over all fields; the joint line is told apart. */
function sharedErrors(origins: readonly Origin[], used: ReadonlySet<string>): readonly SharedError[] {
  const byCause = new Map<string, Record<string, number>>();
  for (const { field, shared, sd } of origins) {
    if (!used.has(field) || sd === null) continue;
    for (const [cause, share] of Object.entries(shared ?? {})) {
      if (cause === JOINT_LINE_CAUSE || share === 0) continue;
      const moves = byCause.get(cause) ?? {};
      moves[field] = share;
      byCause.set(cause, moves);
    }
  }
  return [...byCause].map(([cause, moves]) => ({ cause, moves }));
}

const WOULD_CHANGE = 'How often the plan holds, and what must be in the room.';

/**
 * Spreads that the forecast cannot do without and that nobody has measured or stated (FOR-8): each with the field in
 * which it is stated. Empty = the forecast can be made.
 */
export function missingSpreads(file: CaseFile, plan: Plan): readonly Missing[] {
  if (!plan.bone.ok) return [];
  const { state, origins } = plan.bone.value;
  const stated = file.forecast?.spreads ?? {};
  const known = new Set(origins.filter((o) => o.sd !== null).map((o) => o.field));
  const lengths = measuredFields(state)
    .filter((field) => !known.has(field) && stated[field] === undefined)
    .map((field) => ({
      what: `Spread of: ${FIELD_LABELS[field]}`,
      field: `forecast.spreads.${field}`,
      wouldChange: WOULD_CHANGE,
    }));
  const losses = SURFACE_NAMES.filter((surface) => removalOf(file, surface) === null).map((surface) => ({
    what:
      file.bone?.removalLossMm?.[surface] === undefined
        ? `How the component is held: loss at removal, ${SURFACES[surface].label}`
        : `How the component is held, or the spread of the loss at removal: ${SURFACES[surface].label}`,
    field: surface === 'tibia' ? 'bone.tibiaFixation' : 'bone.femurFixation',
    wouldChange: WOULD_CHANGE,
  }));
  return [...lengths, ...losses];
}

const chanceOf = (chance: number | undefined): Chance =>
  chance === undefined
    ? { chance: null, from: 'not stated: counted as not happening' }
    : { chance, from: 'stated by the surgeon' };

function chancesOf(settings: ForecastSettings | undefined): UncertainKnee['chances'] {
  return {
    femurWorse: chanceOf(settings?.femurWorseChance),
    tibiaWorse: chanceOf(settings?.tibiaWorseChance),
    mclWorse: chanceOf(settings?.mclWorseChance),
    lclWorse: chanceOf(settings?.lclWorseChance),
    fracture: chanceOf(settings?.fractureChance),
    infection: chanceOf(settings?.infectionChance),
  };
}

/** The bone as the films show it: the loss that the plan has added for removal taken off again. */
function beforeRemoval(state: BoneState, file: CaseFile): BoneState {
  const loss = file.bone?.removalLossMm;
  const off = SURFACE_NAMES.flatMap((surface) =>
    (['medial', 'lateral'] as const).map((side): [SpreadField, number] => [
      `${SURFACES[surface].field}.${side}`,
      -(loss?.[surface] ?? 0),
    ]),
  );
  return movedState(state, Object.fromEntries(off));
}

/** Numbers stated by hand that no draw can be made from. */
function badStated(settings: ForecastSettings | undefined): Reason | null {
  const chances = ['femurWorse', 'tibiaWorse', 'mclWorse', 'lclWorse', 'fracture', 'infection'] as const;
  for (const name of chances) {
    const chance = settings?.[`${name}Chance`];
    if (chance !== undefined && !(chance >= 0 && chance <= 1))
      return {
        code: 'chance-out-of-range',
        message: `A chance lies between 0 and 1, not ${chance}.`,
        field: `forecast.${name}Chance`,
        mend: 'Enter a share between 0 and 1.',
      };
  }
  for (const [field, sd] of Object.entries(settings?.spreads ?? {}))
    if (!(sd >= 0 && Number.isFinite(sd)))
      return {
        code: 'spread-out-of-range',
        message: `A spread is 0 or more, not ${sd}.`,
        field: `forecast.spreads.${field}`,
        mend: 'Enter one standard deviation, in mm or deg.',
      };
  return null;
}

/**
 * Everything that the draws of a case are made from: the bone of its plan without the loss at removal, spreads by cause
 * (PLAN-20), loss at removal by fixation (FOR-4), chances as stated (FOR-8).
 *
 * A measured spread goes before one stated by hand, which fills only what carries none. Refused while a spread is
 * missing (`missingSpreads` names them all): a spread is asked for, never zero by default. A chance that is
 * not stated counts as not happening, and is said. Lengths mm, angles deg, spreads one standard deviation.
 */
export function uncertainKnee(file: CaseFile, plan: Plan): Outcome<UncertainKnee> {
  if (!plan.bone.ok) return plan.bone;
  const bad = badStated(file.forecast);
  if (bad) return cannot(bad);
  const missing = missingSpreads(file, plan);
  if (missing[0])
    return cannot({
      code: 'spread-missing',
      message: `${missing.length === 1 ? 'One spread is' : `${missing.length} spreads are`} not known: what may be found cannot be drawn without.`,
      field: missing[0].field,
      mend: `State it. First: ${missing[0].what}.`,
    });
  const { state, origins } = plan.bone.value;
  const fields = measuredFields(state);
  const origin = new Map(origins.map((o) => [o.field, o]));
  const stated = file.forecast?.spreads ?? {};
  const spreads = fields.map((field): [SpreadField, number] => {
    const o = origin.get(field);
    return [field, (o && aloneSd(o)) ?? stated[field] ?? 0];
  });
  return ok({
    expected: beforeRemoval(state, file),
    spreads: Object.fromEntries(spreads),
    jointLineSdMm: jointLineSd(plan),
    shared: sharedErrors(origins, new Set<string>(fields)),
    removal: {
      femurDistal: removalOf(file, 'femurDistal'),
      femurPosterior: removalOf(file, 'femurPosterior'),
      tibia: removalOf(file, 'tibia'),
    },
    chances: chancesOf(file.forecast),
  });
}

/** Spread of the target joint line as it stands among the causes, mm; null where no support hangs on it. */
const jointLineSd = ({ bone, jointLine }: Plan): number | null =>
  bone.ok && jointLine.femoral.ok && bone.value.origins.some((o) => o.shared?.[JOINT_LINE_CAUSE] !== undefined)
    ? jointLine.femoral.value.sdMm
    : null;
