import type { Warning } from '../measure/outcome.ts';
import type { Measurement } from './measurement.ts';

/** Below these the patella stands low (PAT-6). */
export const BAJA_BELOW = {
  'insall-salvati': 0.8,
  'modified-insall-salvati': 1.2,
  'blackburne-peel': 0.54,
  'caton-deschamps': 0.6,
} as const;

export type PatellaReading = 'true-baja' | 'pseudo-baja' | 'not-low' | 'mixed' | 'not-known';

type Index = keyof typeof BAJA_BELOW;

/**
 * Reads the four patellar indices together (PAT-6). True baja: every marked index is low, of tendon and of joint line, for the
 * tendon is short. Pseudo baja: the joint-line indices (Blackburne-Peel, Caton-Deschamps) are low and the tendon indices (Insall-Salvati and
 * its modification) are not, for the joint line is raised. Anything else that is low is mixed.
 * Not known unless one index of each kind is there. Source: Xu 2017 (J Orthop Surg Res).
 */
export function readPatella(values: Readonly<Partial<Record<Index, number | null>>>): PatellaReading {
  const low = (ids: readonly Index[]) =>
    ids.flatMap((id) => {
      const v = values[id];
      return v === null || v === undefined ? [] : [v < BAJA_BELOW[id]];
    });
  const tendon = low(['insall-salvati', 'modified-insall-salvati']);
  const line = low(['blackburne-peel', 'caton-deschamps']);
  if (tendon.length === 0 || line.length === 0) return 'not-known';
  const all = (xs: readonly boolean[]) => xs.every((x) => x);
  const none = (xs: readonly boolean[]) => xs.every((x) => !x);
  if (none(tendon) && none(line)) return 'not-low';
  if (all(line) && all(tendon)) return 'true-baja';
  return all(line) && none(tendon) ? 'pseudo-baja' : 'mixed';
}

/** The reading as a caution beside the indices; none where the patella is not low or nothing is known. */
export function patellaCaution(lines: readonly Measurement[]): Warning | null {
  const value = (id: Index) => lines.find((m) => m.id === id)?.value ?? null;
  const reading = readPatella({
    'insall-salvati': value('insall-salvati'),
    'modified-insall-salvati': value('modified-insall-salvati'),
    'blackburne-peel': value('blackburne-peel'),
    'caton-deschamps': value('caton-deschamps'),
  });
  return reading === 'not-low' || reading === 'not-known' ? null : CAUTIONS[reading];
}

const CAUTIONS: Readonly<Record<'true-baja' | 'pseudo-baja' | 'mixed', Warning>> = {
  'true-baja': {
    code: 'true-baja',
    message:
      'True patella baja: all patellar indices are low, the tendon is short. Lowering the joint line will not mend it.',
  },
  'pseudo-baja': {
    code: 'pseudo-baja',
    message:
      'Pseudo patella baja: Blackburne-Peel and Caton-Deschamps are low, the tendon indices are not. The joint line stands raised.',
  },
  mixed: {
    code: 'patella-mixed',
    message:
      'The patellar indices disagree: part of them is low. A short tendon and a raised joint line may both be present.',
  },
};
