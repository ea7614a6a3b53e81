import {
  CULTURE_GROWTHS,
  CULTURE_SOURCES,
  HISTOLOGIES,
  LOCAL_SIGNS,
  type LocalSign,
  ORGANISM_KINDS,
} from '@gapline/core/infection/findings.ts';
import { ANALYTE_IDS } from '@gapline/core/laboratory/analyte.ts';
import type { Known } from '@gapline/core/measure/known.ts';
import Type from 'typebox';
import { closed, isoDate, known, maybe, text, words } from './schema-words.ts';

/** A result as it was entered: one without unit, of an impossible day or out of range is kept, and marked when read. */
const labResult = Type.Object(
  {
    id: text(),
    analyte: words(ANALYTE_IDS),
    value: Type.Unsafe<number | string>({ type: ['number', 'string'], description: 'As entered.' }),
    unit: maybe(Type.String({ description: 'As entered.' })),
    comparator: maybe(words(['<', '>'])),
    takenOn: maybe(Type.String({ description: 'Day of sampling as entered, YYYY-MM-DD.' })),
    sample: maybe(Type.String({ description: 'Tells samples of one day apart.' })),
    method: maybe(words(['laboratory', 'lateral-flow'])),
    centrifuged: maybe(Type.Boolean()),
  },
  closed,
);

const culture = Type.Object(
  {
    id: text(),
    from: words(CULTURE_SOURCES),
    takenOn: maybe(Type.String({ description: 'Day of sampling as entered, YYYY-MM-DD.' })),
    growth: words(CULTURE_GROWTHS, '`pending` = taken, not yet read.'),
    organisms: maybe(Type.Array(Type.Object({ name: Type.String(), kind: words(ORGANISM_KINDS) }, closed))),
    cfuPerMl: maybe(Type.Number()),
    centrifuged: maybe(Type.Boolean()),
  },
  closed,
);

const scan = () => maybe(words(['negative', 'positive', 'unknown']));
const fact = () => maybe(known());

const localSigns = Type.Unsafe<Partial<Record<LocalSign, Known>>>(
  Type.Object(Object.fromEntries(LOCAL_SIGNS.map((sign) => [sign, fact()])), closed),
);

const context = Type.Object(
  {
    crystals: fact(),
    metalReaction: fact(),
    inflammatoryDisease: fact(),
    fracture: fact(),
    haematoma: fact(),
    bloodStainedAspirate: fact(),
    antibioticsBeforeTap: fact(),
    slowOrganismSuspected: fact(),
    spacerInPlace: fact(),
    suddenOnset: fact(),
  },
  { ...closed, description: 'What makes a result harder to trust; shown as cautions, never scored.' },
);

/** The work-up for infection, by the names of core/infection/findings.ts. */
export const infectionSchema = Type.Object(
  {
    decisionOn: maybe(isoDate('Results after this day are not used; absent = today.')),
    lastOperationOn: maybe(isoDate('Last operation on this joint.')),
    implantedOn: maybe(isoDate('Day of implantation.')),
    labResults: maybe(Type.Array(labResult)),
    cultures: maybe(Type.Array(culture)),
    sinus: fact(),
    purulence: fact(),
    histology: maybe(words([...HISTOLOGIES, 'unknown'])),
    otherCause: fact(),
    localSigns: maybe(localSigns),
    loosening: fact(),
    looseningSeenOn: maybe(isoDate('Day on which loosening was first seen.')),
    woundHealingProblem: fact(),
    feverOrBacteraemia: fact(),
    leukocyteScan: scan(),
    leukocyteMarrowScan: scan(),
    boneScan: scan(),
    tap: maybe(words(['fluid', 'dry', 'lavage', 'unknown'])),
    context: maybe(context),
  },
  closed,
);
