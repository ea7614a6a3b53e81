import type { Definition, DefinitionId } from '../definition.ts';
import { EBJIS_2021 } from './ebjis-2021.ts';
import { ICM_2013 } from './icm-2013.ts';
import { ICM_2018_PROPOSED } from './icm-2018-proposed.ts';
import { IDSA_2013 } from './idsa-2013.ts';
import { MSIS_2011, MSIS_2011_OR } from './msis-2011.ts';
import { PARVIZI_2018 } from './parvizi-2018.ts';
import { WAIOT_2019 } from './waiot-2019.ts';

/** Every definition, those shown first in front. INF-1. */
export const DEFINITIONS: readonly Definition[] = [
  PARVIZI_2018,
  EBJIS_2021,
  ICM_2018_PROPOSED,
  ICM_2013,
  IDSA_2013,
  WAIOT_2019,
  MSIS_2011,
  MSIS_2011_OR,
];

export const SHOWN_FIRST: readonly DefinitionId[] = ['parvizi-2018', 'ebjis-2021'];
