/**
 * Puts an outline into a catalogue and writes the catalogue anew:
 *
 *     node exchange/catalogue/outlines/add-outline.ts catalogue.json REF coronal|sagittal drawing.dxf [widthMm [heightMm]]
 *
 * Nothing is written where the drawing is refused; the reason and its mend are told.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import { readCatalogue } from '../read-catalogue.ts';
import { type OutlinePart, type OutlineView, readOutlines, withOutlines } from './read-outlines.ts';

/** The part of a reference, with its kind; null where the catalogue has no femur, tray or insert of it. */
export function partWithOutline(catalogue: Catalogue, ref: string): OutlinePart | null {
  const femur = catalogue.femurs.find((p) => p.ref === ref);
  if (femur) return { kind: 'femur', part: femur };
  const tray = catalogue.trays.find((p) => p.ref === ref);
  if (tray) return { kind: 'tray', part: tray };
  const insert = catalogue.inserts.find((p) => p.ref === ref);
  return insert ? { kind: 'insert', part: insert } : null;
}

interface Adding {
  readonly ref: string;
  readonly view: string;
  readonly drawing: { readonly fileName: string; readonly text: string };
  /** Sizes stated by hand, mm: width, height. */
  readonly sizes?: readonly number[];
}

/** The catalogue with the drawing as outline of one part in one view. */
export function addOutline(catalogue: Catalogue, { ref, view, drawing, sizes = [] }: Adding): Outcome<Catalogue> {
  const of = partWithOutline(catalogue, ref);
  if (!of)
    return cannot({
      code: 'part-unknown',
      message: `The catalogue has no femur, tray or insert ${ref}.`,
      mend: 'Give the reference as the catalogue has it.',
    });
  if (!isView(view))
    return cannot({ code: 'view-unknown', message: `${view} is no view.`, mend: 'Say coronal or sagittal.' });
  const [widthMm, heightMm] = sizes;
  const stated = {
    ...(widthMm === undefined ? {} : { widthMm }),
    ...(heightMm === undefined ? {} : { heightMm }),
  };
  const { fileName, text } = drawing;
  const lines = readOutlines(text, { fileName, of, view, ...(sizes.length > 0 ? { stated } : {}) });
  return lines.ok ? ok(withOutlines(catalogue, { of, view, lines: lines.value })) : lines;
}

const isView = (word: string): word is OutlineView => word === 'coronal' || word === 'sagittal';

function main([path = '', ref = '', view = '', file = '', ...sizes]: readonly string[]): number {
  const read = readCatalogue(readFileSync(path, 'utf8'), basename(path));
  const drawing = { fileName: basename(file), text: readFileSync(file, 'utf8') };
  const added = read.ok ? addOutline(read.value, { ref, view, drawing, sizes: sizes.map(Number) }) : read;
  if (!added.ok) {
    process.stderr.write(`${added.reason.message} ${added.reason.mend ?? ''}\n`);
    return 1;
  }
  writeFileSync(path, `${JSON.stringify(added.value, null, 2)}\n`);
  return 0;
}

if (import.meta.main) process.exitCode = main(process.argv.slice(2));
