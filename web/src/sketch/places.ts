import type { LandmarkId } from '@gapline/core/landmarks/landmark-table.ts';

export type SketchName = 'leg' | 'knee-front' | 'knee-side' | 'skyline' | 'slice-femur' | 'slice-tibia';

/** Where a landmark lies on the small drawings: of a right knee from the front, from the side with the front at the left, or along the patella. */
export interface SketchPlace {
  readonly on: SketchName;
  readonly at: readonly (readonly [number, number])[];
}

const leg = (...at: readonly (readonly [number, number])[]): SketchPlace => ({ on: 'leg', at });
const front = (...at: readonly (readonly [number, number])[]): SketchPlace => ({ on: 'knee-front', at });
const skyline = (...at: readonly (readonly [number, number])[]): SketchPlace => ({ on: 'skyline', at });
const sliceFemur = (...at: readonly (readonly [number, number])[]): SketchPlace => ({ on: 'slice-femur', at });
const sliceTibia = (...at: readonly (readonly [number, number])[]): SketchPlace => ({ on: 'slice-tibia', at });
const side = (...at: readonly (readonly [number, number])[]): SketchPlace => ({ on: 'knee-side', at });

export const PLACES: Readonly<Record<LandmarkId, SketchPlace>> = {
  'femoral-head': leg([47, 14], [56, 18], [58, 27], [51, 33], [42, 31]),
  'femoral-notch': front([60, 73]),
  'femoral-component-medial-edge': front([98, 74]),
  'femoral-component-lateral-edge': front([22, 74]),
  'medial-condyle-distal': front([80, 85]),
  'lateral-condyle-distal': front([40, 85]),
  'medial-epicondyle': front([101, 63]),
  'medial-epicondyle-sulcus': front([97, 68]),
  'lateral-epicondyle': front([19, 64]),
  'adductor-tubercle': front([91, 46]),
  'femoral-shaft-proximal-medial': leg([37, 66]),
  'femoral-shaft-proximal-lateral': leg([25, 66]),
  'femoral-shaft-distal-medial': leg([42, 98]),
  'femoral-shaft-distal-lateral': leg([30, 98]),
  'femoral-bone-distal-medial': front([80, 77]),
  'femoral-bone-distal-lateral': front([40, 77]),
  'femoral-bone-medial-edge': front([99, 70]),
  'femoral-bone-lateral-edge': front([21, 70]),
  'tibial-spines': front([60, 90]),
  'medial-plateau': front([78, 94]),
  'lateral-plateau': front([42, 94]),
  'tray-medial-edge': front([94, 91]),
  'tray-lateral-edge': front([26, 91]),
  'tibial-cortex-medial': front([94, 99]),
  'tibial-cortex-lateral': front([26, 99]),
  'tibial-bone-medial': front([78, 98]),
  'tibial-bone-lateral': front([42, 98]),
  'fibular-tip': front([20, 103]),
  'tibial-shaft-proximal-medial': leg([46, 152]),
  'tibial-shaft-proximal-lateral': leg([33, 152]),
  'tibial-shaft-distal-medial': leg([44, 196]),
  'tibial-shaft-distal-lateral': leg([34, 196]),
  'talus-medial': leg([46, 224]),
  'talus-lateral': leg([33, 224]),
  'calibration-ball': front([108, 112], [114, 118], [108, 124], [102, 118]),
  'patella-superior-pole': side([33, 42]),
  'patella-inferior-pole': side([31, 72]),
  'patella-articular-superior': side([37, 46]),
  'patella-articular-inferior': side([36, 65]),
  'tibial-tubercle': side([43, 113]),
  'plateau-anterior': side([46, 92]),
  'plateau-posterior': side([94, 96]),
  'tibial-sagittal-proximal-anterior': side([48, 124]),
  'tibial-sagittal-proximal-posterior': side([81, 124]),
  'tibial-sagittal-distal-anterior': side([51, 146]),
  'tibial-sagittal-distal-posterior': side([78, 146]),
  'femoral-sagittal-proximal-anterior': side([56, 4]),
  'femoral-sagittal-proximal-posterior': side([79, 4]),
  'femoral-sagittal-distal-anterior': side([54, 34]),
  'femoral-sagittal-distal-posterior': side([80, 34]),
  'posterior-condyle': side([99, 68]),
  'femoral-component-distal-anterior': side([59, 79]),
  'femoral-component-distal-posterior': side([80, 80]),
  'femoral-bone-posterior': side([91, 68]),
  'posterior-condyle-other': side([95, 74]),
  'femoral-flange': side([53, 44]),
  'tibial-edge-anterior': side([46, 101]),
  'tibial-edge-posterior': side([91, 104]),
  'skyline-condyle-medial': skyline([88, 64]),
  'skyline-condyle-lateral': skyline([32, 60]),
  'skyline-groove': skyline([62, 74]),
  'patella-back-medial': skyline([90, 44]),
  'patella-back-lateral': skyline([32, 42]),
  'patella-front': skyline([60, 16]),
  'ct-lateral-epicondyle': sliceFemur([11, 54]),
  'ct-medial-epicondyle-sulcus': sliceFemur([106, 56]),
  'ct-medial-epicondyle-peak': sliceFemur([109, 50]),
  'ct-femoral-posterior-medial': sliceFemur([86, 94]),
  'ct-femoral-posterior-lateral': sliceFemur([34, 91]),
  'ct-tray-posterior-medial': sliceTibia([84, 88]),
  'ct-tray-posterior-lateral': sliceTibia([36, 86]),
  'ct-plateau-outline': sliceTibia([60, 22], [93, 32], [106, 60], [92, 90], [60, 80], [28, 88], [14, 58], [29, 32]),
  'ct-tubercle-tip': sliceTibia([46, 16]),
};
