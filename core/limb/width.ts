import type { LandmarkId } from '../landmarks/landmark-table.ts';
import { millimetres } from '../landmarks/millimetres.ts';
import { distance } from '../plane/point.ts';
import { ANY_AP, type Definition } from './definition.ts';

interface Width {
  readonly id: string;
  readonly label: string;
  readonly medial: LandmarkId;
  readonly lateral: LandmarkId;
  readonly only?: 'replaced';
  readonly source: string;
  readonly normal?: string;
}

/** A mediolateral width: distance of two marks on an AP film, mm, always positive. */
const width = (w: Width): Definition<'coronal'> => ({
  id: w.id,
  label: w.label,
  frame: 'coronal',
  unit: 'mm',
  sign: 'width, always positive',
  rule: 'LIMB-13',
  source: w.source,
  ...(w.normal ? { normal: w.normal } : {}),
  needsScale: true,
  variants: (state) =>
    w.only && state !== w.only
      ? []
      : [
          {
            views: ANY_AP,
            inputs: [w.medial, w.lateral],
            formula: (r) => millimetres(distance(r.at(w.medial), r.at(w.lateral)), r),
          },
        ],
});

export const WIDTHS: readonly Definition<'coronal'>[] = [
  width({
    id: 'epicondylar-width',
    label: 'Epicondylar width (FW)',
    medial: 'medial-epicondyle',
    lateral: 'lateral-epicondyle',
    source: 'along the line of the most prominent points, Thai MRI series, Knee Surg Relat Res 2022; 34:5',
    normal: '82.7 ± 4.0 (men), 72.5 ± 3.5 (women), Bosnian dry bone',
  }),
  width({
    id: 'femoral-component-width',
    label: 'Femoral component width',
    medial: 'femoral-component-medial-edge',
    lateral: 'femoral-component-lateral-edge',
    only: 'replaced',
    source: 'outer metal edges; general practice (from memory)',
  }),
  width({
    id: 'tray-width',
    label: 'Tray width',
    medial: 'tray-medial-edge',
    lateral: 'tray-lateral-edge',
    only: 'replaced',
    source: 'outer metal edges; general practice (from memory)',
  }),
  width({
    id: 'femoral-bone-width',
    label: 'Femoral bone width at the distal cut',
    medial: 'femoral-bone-medial-edge',
    lateral: 'femoral-bone-lateral-edge',
    source: 'general practice (from memory)',
    normal: '74.9 ± 3.2 (men), 67.3 ± 3.7 (women) at the planned cut on MRI, Egyptian series 2021',
  }),
  width({
    id: 'tibial-bone-width',
    label: 'Tibial bone width at the cut',
    medial: 'tibial-cortex-medial',
    lateral: 'tibial-cortex-lateral',
    source: 'general practice (from memory)',
    normal: '76.0 ± 3.0 (men), 67.3 ± 3.2 (women) on MRI, Egyptian series 2021',
  }),
];
