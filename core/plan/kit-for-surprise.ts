import type { ForecastAnswer } from '../forecast/forecast.ts';
import { DEFAULT_WEIGHTS } from '../gaps/default-weights.ts';
import { chooseKit } from '../kit/choose-kit.ts';
import type { KitAnswer, KitProgress } from '../kit/kit-answer.ts';
import { kitOptions } from '../kit/kit-options.ts';
import type { KitProblem } from '../kit/kit-problem.ts';
import { SHARE_PCT } from '../kit/kit-question.ts';
import { kitRoom } from '../kit/kit-room.ts';
import { whatIfMissing } from '../kit/what-if-missing.ts';
import { cannot, type Outcome, ok, type Reason } from '../measure/outcome.ts';
import { retold } from '../measure/steps.ts';
import { canonicalJson } from './canonical-json.ts';
import { planLacks } from './plan-lacks.ts';
import { withSlope } from './solve-for.ts';
import type { SurpriseInput, SurpriseKit, SurpriseProgress } from './surprise.ts';
import type { SurpriseMemory } from './surprise-memory.ts';

/** A forecast with a key that tells it from any other. */
export interface MadeForecast extends ForecastAnswer {
  readonly key: string;
}

/**
 * The sets for the knees that were drawn: those proposed, and the room that the case decides on. Sets that will not arrive
 * are left out of both. Refused, with the mend, where there is no forecast, no list of sets, or a list for another catalogue.
 */
export function* kitForSurprise(
  input: SurpriseInput,
  made: Outcome<MadeForecast>,
  memory: SurpriseMemory,
): Generator<SurpriseProgress, Outcome<SurpriseKit>, unknown> {
  const { file, catalogue, setList } = input;
  const fault = cannotBeAsked(input);
  if (fault) return cannot(fault);
  if (!made.ok) return made;
  const { first } = made.value;
  const { problem, key } = yield* problemFor(input, made.value, memory);
  const proposed = yield* choiceFor(input, { problem, key }, memory);
  const gone = file.kit?.missing ?? [];
  const decision = file.kit?.bring;
  const decided = decision
    ? kitRoom(
        problem,
        decision.filter((ref) => !gone.includes(ref)),
      )
    : proposed;
  const sharePct = file.kit?.sharePct ?? SHARE_PCT;
  const kit = {
    proposed,
    decided,
    isDecided: decision !== undefined,
    without: decided.bring.map((ref) => whatIfMissing(problem, decided, { ref, sharePct })),
    planLacks:
      first && catalogue && setList ? planLacks(first, { catalogue, sets: setList.sets, bring: decided.bring }) : [],
    currency: setList?.currency ?? '',
    acceptableCost: problem.acceptableCost,
  };
  return ok(kit, hasPassed(input) ? [PASSED] : []);
}

/** ISO days compare as texts. */
const hasPassed = ({ file, today }: SurpriseInput): boolean =>
  file.kit?.surgeryOn !== undefined && file.kit.surgeryOn < today;

const PASSED = {
  code: 'surgery-has-passed',
  message: 'The day of surgery has passed: no set counts as too late.',
  field: 'kit.surgeryOn',
  mend: 'Enter the day of the operation that is planned.',
};

function cannotBeAsked({ catalogue, setList }: SurpriseInput): Reason | null {
  if (!setList)
    return {
      code: 'no-set-list',
      message: 'No list of sets is chosen.',
      field: 'kit.setList',
      mend: 'Choose the list of your hospital, or import one.',
    };
  if (catalogue && setList.catalogue !== catalogue.id)
    return {
      code: 'set-list-of-another-catalogue',
      message: `The sets of ${setList.name} hold parts of the catalogue ${setList.catalogue}, the plan is made with ${catalogue.id}.`,
      field: 'kit.setList',
      mend: 'Choose a list for this catalogue, or the other catalogue.',
    };
  return null;
}

interface Asked {
  readonly problem: KitProblem;
  readonly key: string;
}

function* problemFor(
  input: SurpriseInput,
  made: MadeForecast,
  memory: SurpriseMemory,
): Generator<SurpriseProgress, Asked, unknown> {
  const { file, catalogue, setList, stock } = input;
  const { surgeryOn = null, acceptableCost } = file.kit ?? {};
  const today = hasPassed(input) ? null : input.today;
  const key = canonicalJson([made.key, setList, stock, surgeryOn, acceptableCost ?? null, today]);
  const known = memory.recall<KitProblem>('sets', key);
  if (known) return { problem: known, key };
  if (!catalogue || !setList) throw new Error('The kit was asked for without catalogue or sets.');
  const steps = kitOptions({
    knees: made.perKnee.map((p) => p.knee),
    catalogue: withSlope(catalogue, file.settings?.targetSlopeDeg),
    weights: file.settings?.weights ?? DEFAULT_WEIGHTS,
    setList,
    stock,
    surgeryOn,
    today,
    ...(acceptableCost === undefined ? {} : { acceptableCost }),
  });
  const problem = yield* retold(
    steps,
    ({ done, of }): SurpriseProgress => ({
      part: 'sets',
      done: of === 0 ? 1 : done / of,
      words: `sets for ${done} of ${of} knees`,
    }),
  );
  return { problem: memory.keep('sets', key, problem), key };
}

const PHASES: Readonly<Record<KitProgress['phase'], string>> = {
  search: 'cheapest sets are sought',
  proof: 'proof that none is cheaper',
  curve: 'curve of cost against coverage',
};

function* choiceFor(
  { file }: SurpriseInput,
  { problem, key }: Asked,
  memory: SurpriseMemory,
): Generator<SurpriseProgress, KitAnswer, unknown> {
  const { sharePct = SHARE_PCT, missing = [] } = file.kit ?? {};
  const choice = canonicalJson([key, sharePct, missing]);
  const known = memory.recall<KitAnswer>('choice', choice);
  if (known) return known;
  const answer = yield* retold(
    chooseKit(problem, { sharePct, mustNot: missing }),
    ({ phase, done, bring, cost, share }): SurpriseProgress => ({
      part: 'choice',
      done,
      words: PHASES[phase],
      room: { bring, cost, share },
    }),
  );
  return memory.keep('choice', choice, answer);
}
