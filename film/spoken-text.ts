/// <reference path="./packages.d.ts" />
import { convertBytes } from 'dicom-character-set';
import type { DataSet } from './dicom/data-set.ts';
import { TAG } from './dicom/tags.ts';
import { bytesOf, text } from './dicom/values.ts';

/**
 * Text of people's languages, in the character set that the file states, code extensions of Japanese
 * and Korean included (PS3.5 chapter 6.1). A character set that is not known reads as Latin-1.
 */
export function spokenText(set: DataSet, tag: number, vr: 'PN' | 'LO' = 'LO', root: DataSet = set): string | undefined {
  const bytes = bytesOf(set, tag);
  if (!bytes || bytes.length > 1024) return undefined;
  const value = decoded(text(root, TAG.SpecificCharacterSet), bytes, vr).replaceAll('\0', '').trim();
  return value === '' ? undefined : value;
}

function decoded(characterSet: string | undefined, bytes: Uint8Array, vr: 'PN' | 'LO'): string {
  // The package throws for character sets that it does not know and for broken sequences.
  try {
    return convertBytes(characterSet ?? 'ISO_IR 6', bytes, { vr });
  } catch {
    return new TextDecoder('latin1').decode(bytes);
  }
}
