import { CULTURE_GROWTHS, CULTURE_SOURCES, HISTOLOGIES, LOCAL_SIGNS, ORGANISM_KINDS } from '../infection/findings.ts';
import { ANALYTE_IDS } from '../laboratory/analyte.ts';
import {
  type Accepts,
  isEither,
  isListOf,
  isListWithIds,
  isNumber,
  isRecordOf,
  isText,
  isTrueOrFalse,
  isWord,
} from './accepts.ts';
import { date, oneOf, section, value } from './field-kinds.ts';
import { known } from './known-fields.ts';

/** A value as it was typed, sound or not: the reader of results marks what is wrong and never scores it. */
const asTyped: Accepts = isEither(isNumber(-1e12, 1e12), isText(200));

const scan = (label: string) => oneOf(label, ['negative', 'positive', 'unknown']);

/** The work-up for infection, by the names of core/infection/findings.ts. */
export const INFECTION_FIELDS = section('Infection', {
  decisionOn: date('Day of the decision'),
  lastOperationOn: date('Last operation on this knee'),
  implantedOn: date('Implanted on'),
  labResults: value(
    'Results',
    'a list of results as they were entered',
    isListWithIds(
      { analyte: isWord(ANALYTE_IDS), value: asTyped },
      {
        unit: isText(80),
        comparator: isWord(['<', '>']),
        takenOn: isText(40),
        sample: isText(200),
        method: isWord(['laboratory', 'lateral-flow']),
        centrifuged: isTrueOrFalse,
      },
    ),
  ),
  cultures: value(
    'Cultures',
    'a list of samples with growth',
    isListWithIds(
      { from: isWord(CULTURE_SOURCES), growth: isWord(CULTURE_GROWTHS) },
      {
        takenOn: isText(40),
        organisms: isListOf(isRecordOf({ name: isText(200), kind: isWord(ORGANISM_KINDS) }), 50),
        cfuPerMl: isNumber(-1e12, 1e12),
        centrifuged: isTrueOrFalse,
      },
    ),
  ),
  sinus: known('Sinus or prosthesis seen'),
  purulence: known('Purulence'),
  histology: oneOf('Histology', [...HISTOLOGIES, 'unknown']),
  otherCause: known('Another cause explains the symptoms'),
  localSigns: section(
    'Local signs',
    Object.fromEntries(LOCAL_SIGNS.map((sign) => [sign, known(`Local sign: ${sign.replaceAll('-', ' ')}`)])),
  ),
  loosening: known('Loosening on film'),
  looseningSeenOn: date('Loosening first seen on'),
  woundHealingProblem: known('Problem of wound healing'),
  feverOrBacteraemia: known('Fever or bacteraemia'),
  leukocyteScan: scan('Leukocyte scan'),
  leukocyteMarrowScan: scan('Leukocyte and marrow scan'),
  boneScan: scan('Bone scan'),
  tap: oneOf('Tap', ['fluid', 'dry', 'lavage', 'unknown']),
  context: section('What makes results harder to trust', {
    crystals: known('Crystals in the aspirate'),
    metalReaction: known('Reaction to metal'),
    inflammatoryDisease: known('Inflammatory disease'),
    fracture: known('Fracture about the joint'),
    haematoma: known('Haematoma'),
    bloodStainedAspirate: known('Blood-stained aspirate'),
    antibioticsBeforeTap: known('Antibiotics within 14 days before the tap'),
    slowOrganismSuspected: known('Slow organism suspected'),
    spacerInPlace: known('Spacer in place'),
    suddenOnset: known('Sudden onset in a joint that was well'),
  }),
});
