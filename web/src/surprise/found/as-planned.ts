import type { Construct } from '@gapline/core/gaps/construct.ts';
import type { Found, KeptForecast, PartsUsed } from '@gapline/core/learning/found.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';

/** The parts of a construct as parts that were used. */
export const usedAsPlanned = (c: Construct): PartsUsed => ({
  level: c.level,
  femur: c.femur,
  distalAugments: c.distalAugments,
  posteriorAugments: c.posteriorAugments,
  tray: c.tray,
  tibialAugments: c.tibialAugments,
  insert: c.insert,
  femoralStem: c.femoralStem,
  femoralOffset: c.femoralOffset,
  tibialStem: c.tibialStem,
  tibialOffset: c.tibialOffset ?? null,
  femoralCone: c.femoralCone ?? null,
  tibialCone: c.tibialCone ?? null,
  femoralSleeve: c.femoralSleeve ?? null,
  tibialSleeve: c.tibialSleeve ?? null,
});

/** Everything as it was planned: what is left then is to change what was not so. Lengths are measured, never taken over. */
export function foundAsPlanned(file: CaseFile, construct: Construct | null, on: string): Found {
  const { bone, examination } = file;
  const ligament = (state: Found['mcl']): Found['mcl'] => (state === 'unknown' ? undefined : state);
  const [mcl, lcl] = [ligament(examination?.mcl), ligament(examination?.lcl)];
  return {
    on,
    ...(bone?.femurClass ? { femurClass: bone.femurClass } : {}),
    ...(bone?.tibiaClass ? { tibiaClass: bone.tibiaClass } : {}),
    ...(mcl ? { mcl } : {}),
    ...(lcl ? { lcl } : {}),
    fracture: false,
    infection: false,
    kitSufficed: true,
    ...(construct ? { used: usedAsPlanned(construct) } : {}),
  };
}

/** Whether a kept forecast still says what the forecast of the plan as it stands would say; the day alone may differ. */
export const sameForecast = (kept: KeptForecast, now: KeptForecast): boolean =>
  JSON.stringify({ ...kept, on: '' }) === JSON.stringify({ ...now, on: '' });
