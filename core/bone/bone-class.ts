/** Anderson Orthopaedic Research Institute class of bone loss, femur or tibia (docs/rules/bone.md). */
export type BoneClass = '1' | '2A' | '2B' | '3';

/** Quality suffix of the modified class: good, sclerotic, osteoporotic. */
export type BoneQuality = 'good' | 'sclerotic' | 'osteoporotic';

/** A collateral ligament or the extensor mechanism, as examined. `unknown` is never read as intact. */
export type LigamentState = 'intact' | 'attenuated' | 'absent' | 'unknown';
