import type { Warning } from '@gapline/core/measure/outcome.ts';
import type { DataSet } from '../dicom/data-set.ts';
import { TAG } from '../dicom/tags.ts';
import { decimal, decimals, items, text, texts } from '../dicom/values.ts';
import type { GreyPipeline, ModalityTransform, Window } from '../film.ts';
import type { PixelLayout } from '../pixels/layout.ts';
import { lookUpTable } from './look-up-table.ts';

/**
 * The grey pipeline that a file states (PS3.3 C.11): modality LUT or rescale, windows, VOI LUT, inversion.
 * MONOCHROME1 and a presentation shape of INVERSE are one statement made twice and invert once.
 */
export function greyPipeline(set: DataSet, layout: PixelLayout): { grey: GreyPipeline; warnings: readonly Warning[] } {
  const modality = modalityTransform(set, layout.signed);
  const signedVoi = modality.kind === 'rescale' && (layout.signed || modality.intercept < 0);
  const [voiItem] = items(set, TAG.VOILUTSequence);
  const voiLut = voiItem && lookUpTable(voiItem, signedVoi);
  const stated = text(set, TAG.VOILUTFunction);
  const shape = text(set, TAG.PresentationLUTShape);
  const monochrome1 = layout.photometric === 'MONOCHROME1';
  const grey: GreyPipeline = {
    modality,
    windows: windows(set),
    windowFunction: stated === 'SIGMOID' || stated === 'LINEAR_EXACT' ? stated : 'LINEAR',
    ...(voiLut ? { voiLut } : {}),
    inverted: monochrome1,
  };
  const mismatch = (shape === 'INVERSE' && !monochrome1) || (shape === 'IDENTITY' && monochrome1);
  return { grey, warnings: mismatch ? [SHAPE_MISMATCH] : [] };
}

function modalityTransform(set: DataSet, signed: boolean): ModalityTransform {
  const [item] = items(set, TAG.ModalityLUTSequence);
  const lut = item && lookUpTable(item, signed);
  if (lut) return { kind: 'lut', lut };
  const slope = decimal(set, TAG.RescaleSlope);
  return {
    kind: 'rescale',
    slope: slope === undefined || slope === 0 ? 1 : slope,
    intercept: decimal(set, TAG.RescaleIntercept) ?? 0,
  };
}

function windows(set: DataSet): Window[] {
  const centers = decimals(set, TAG.WindowCenter) ?? [];
  const widths = decimals(set, TAG.WindowWidth) ?? [];
  const words = texts(set, TAG.WindowExplanation);
  return centers.flatMap((center, i) => {
    const width = widths[i];
    if (width === undefined || width <= 0) return [];
    return [{ center, width, ...(words[i] ? { explanation: words[i] } : {}) }];
  });
}

const SHAPE_MISMATCH: Warning = {
  code: 'presentation-shape-mismatch',
  message: 'Presentation shape and photometric interpretation contradict each other; the latter is followed.',
  field: '(2050,0020)',
  mend: 'If bone shows dark, turn the picture around in the viewer.',
};
