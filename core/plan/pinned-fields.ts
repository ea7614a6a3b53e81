import { CONSTRAINT_LEVELS } from '../catalogue/catalogue.ts';
import { PINS, type PinId } from '../gaps/pinned/pinned.ts';
import { type EditableField, needed, number, oneOf, section, text } from './field-kinds.ts';

const labelOf = (id: PinId): string => `${PINS.find((p) => p.id === id)?.label ?? id}, fixed by hand`;
const length = (id: PinId): EditableField => number(labelOf(id), -80, 80, 'mm');
const size = (id: PinId): EditableField => number(labelOf(id), 0, 100, '');
const augments = (id: PinId): EditableField =>
  section(
    labelOf(id),
    {
      medial: needed(number(`${labelOf(id)}, medial`, 0, 60, 'mm')),
      lateral: needed(number(`${labelOf(id)}, lateral`, 0, 60, 'mm')),
    },
    true,
  );

const FIELDS: Readonly<Record<PinId, EditableField>> = {
  level: oneOf(labelOf('level'), CONSTRAINT_LEVELS),
  femurSize: size('femurSize'),
  femurProximalMm: length('femurProximalMm'),
  femurAnteriorMm: length('femurAnteriorMm'),
  distalAugmentsMm: augments('distalAugmentsMm'),
  posteriorAugmentsMm: augments('posteriorAugmentsMm'),
  femoralOffsetMm: number(labelOf('femoralOffsetMm'), 0, 30, 'mm'),
  femoralStem: text(labelOf('femoralStem')),
  traySize: size('traySize'),
  trayMm: number(labelOf('trayMm'), -150, 80, 'mm'),
  tibialAugmentsMm: augments('tibialAugmentsMm'),
  tibialStem: text(labelOf('tibialStem')),
  insertMm: number(labelOf('insertMm'), 0, 60, 'mm'),
  slopeDeg: number(labelOf('slopeDeg'), -10, 20, 'deg'),
};

/** What a person may fix of the construct (GAP-40). */
export const PINNED_FIELDS = section('Fixed by hand', FIELDS);
