import { CONSTRAINT_LEVELS } from '../catalogue/catalogue.ts';
import { isEither, isListOf, isNumber, isRecordOf, isText, isWord } from './accepts.ts';
import { date, type EditableField, line, needed, number, oneOf, section, text, value } from './field-kinds.ts';

/** What a case holds about the bone that may be found: canals, kit, forecast, and what was found in the end. */
const isPoint = isRecordOf({ x: isNumber(-100_000, 100_000), y: isNumber(-100_000, 100_000) });
const chance = (label: string) => number(label, 0, 1, '');
const boneClass = (label: string) => oneOf(label, ['1', '2A', '2B', '3']);
const ligament = (label: string) => oneOf(label, ['intact', 'attenuated', 'absent', 'unknown']);
const isTruth = (v: unknown) => typeof v === 'boolean';
const isSeed = (v: unknown) => Number.isInteger(v) && isNumber(0, 4_294_967_295)(v);
const refs = (label: string) => value(label, 'a list of refs', isListOf(isText(200)));
const pair = (label: string) =>
  section(
    label,
    {
      medial: needed(number(`${label}, medial`, -80, 150, 'mm')),
      lateral: needed(number(`${label}, lateral`, -80, 150, 'mm')),
    },
    true,
  );

const isSpreads = (v: unknown) =>
  typeof v === 'object' && v !== null && !Array.isArray(v) && Object.values(v).every(isNumber(0, 60));

const isPart = isEither(isText(200), (v) => v === null);
const isPair = isRecordOf({ medial: isPart, lateral: isPart });
const USED = {
  level: isWord(CONSTRAINT_LEVELS),
  femur: isText(200),
  distalAugments: isPair,
  posteriorAugments: isPair,
  tray: isText(200),
  tibialAugments: isPair,
  insert: isText(200),
  femoralStem: isPart,
  femoralOffset: isPart,
  tibialStem: isPart,
  tibialOffset: isPart,
  femoralCone: isPart,
  tibialCone: isPart,
  femoralSleeve: isPart,
  tibialSleeve: isPart,
};

export const SURPRISE_FIELDS: Readonly<Record<string, EditableField>> = {
  canals: value(
    'Canals traced on films',
    'a list of canals with their walls, level by level',
    isListOf(
      isRecordOf(
        {
          bone: isWord(['femur', 'tibia']),
          film: isText(200),
          levels: isListOf(isRecordOf({ innerA: isPoint, innerB: isPoint }, { outerA: isPoint, outerB: isPoint })),
        },
        { sdMm: isNumber(0, 20) },
      ),
      20,
    ),
  ),
  kit: section('Kit', {
    setList: line('List of sets'),
    sharePct: number('Share that must have an answer', 1, 100, '%'),
    acceptableCost: number('Acceptable cost of a construct', 0, 1000, ''),
    surgeryOn: date('Day of surgery'),
    bring: refs('Sets to bring'),
    missing: refs('Sets that will not arrive'),
  }),
  forecast: section('Forecast', {
    seed: value('Seed', 'a whole number from 0', isSeed),
    draws: value(
      'Number of draws',
      'a whole number from 100 to 20000',
      (v) => Number.isInteger(v) && isNumber(100, 20_000)(v),
    ),
    fractureChance: chance('Chance of a fracture at removal'),
    infectionChance: chance('Chance of unexpected infection'),
    mclWorseChance: chance('Chance that the medial collateral is worse'),
    lclWorseChance: chance('Chance that the lateral collateral is worse'),
    femurWorseChance: chance('Chance that the femur is one class worse'),
    tibiaWorseChance: chance('Chance that the tibia is one class worse'),
    spreads: value('Stated spreads', 'standard deviations by field, mm or deg', isSpreads),
  }),
  keptForecast: value(
    'Forecast kept before surgery',
    'a forecast with its day, seed, shares and lengths',
    isRecordOf({
      on: isText(10),
      seed: isSeed,
      draws: isNumber(1, 1_000_000),
      coreVersion: isText(100),
      shares: isListOf(isRecordOf({ event: isText(200), share: isNumber(0, 1) }), 2000),
      lengths: isListOf(isRecordOf({ field: isText(200), percentiles: isListOf(isNumber(-1000, 1000), 21) }), 200),
    }),
  ),
  found: section('Found at surgery', {
    on: needed(date('Day of the operation')),
    by: line('Entered by'),
    femurClass: boneClass('Femoral bone loss found, class'),
    tibiaClass: boneClass('Tibial bone loss found, class'),
    femurDistalMm: pair('Distal femoral support found'),
    femurPosteriorMm: pair('Posterior femoral support found'),
    tibiaMm: pair('Tibial support found'),
    mcl: ligament('Medial collateral found'),
    lcl: ligament('Lateral collateral found'),
    fracture: value('Fracture', 'yes or no', isTruth),
    infection: value('Infection found', 'yes or no', isTruth),
    used: value('Parts used', 'catalogue refs by place', isRecordOf({}, USED)),
    kitSufficed: value('Nothing was missing', 'yes or no', isTruth),
    missed: text('What was missing', 500),
    note: text('Note', 5000),
  }),
};
