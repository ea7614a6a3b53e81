import { cannot, type Outcome } from '@gapline/core/measure/outcome.ts';
import { readGs1 } from './gs1.ts';
import { readHibc } from './hibc.ts';
import type { Label } from './label.ts';

/** Reads an implant label of either family; the family is told by its first characters. See `readGs1`, `readHibc`. */
export function readLabel(text: string, readIn: number): Outcome<Label> {
  const trimmed = text.replace(/^\s+|[\r\n\t ]+$/g, '');
  const bare = trimmed.replace(/^\][A-Za-z]\d/, '').replace(/^\*/, '');
  if (bare.startsWith('+')) return readHibc(trimmed, readIn);
  if (bare.startsWith('\u001d') || /^(?:\(\d{2,4}\)|\d{2})/.test(bare)) return readGs1(trimmed, readIn);
  return cannot({
    code: 'label-unknown',
    message: 'The label is neither GS1 nor HIBC.',
    field: 'label',
    mend: 'Type reference, lot or serial number and expiry by hand.',
  });
}
