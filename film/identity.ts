import { type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import type { DataSet } from './dicom/data-set.ts';
import { looksLikeDicom, readDicomFile } from './dicom/read-file.ts';
import { TAG } from './dicom/tags.ts';
import { date, text } from './dicom/values.ts';
import type { Identity } from './film.ts';
import { spokenText } from './spoken-text.ts';

/** Who the patient is, after the file; kept apart from the film. A plain picture names nobody. */
export function readIdentity(bytes: Uint8Array): Outcome<Identity> {
  if (!looksLikeDicom(bytes)) return ok({});
  const file = readDicomFile(bytes);
  return file.ok ? ok(identityOf(file.value.data)) : file;
}

export function identityOf(set: DataSet): Identity {
  const id = spokenText(set, TAG.PatientID);
  const name = readableName(spokenText(set, TAG.PatientName, 'PN'));
  const sex = text(set, TAG.PatientSex);
  const birthDate = date(set, TAG.PatientBirthDate);
  return {
    ...(id === undefined ? {} : { id }),
    ...(name === undefined ? {} : { name }),
    ...(sex === 'F' ? { sex: 'female' as const } : sex === 'M' ? { sex: 'male' as const } : {}),
    ...(birthDate === undefined ? {} : { birthDate }),
  };
}

/**
 * A person name as one line: "Family, Given Middle", the groups of other scripts behind it in brackets.
 * Source: PS3.5 6.2.1 (components parted by ^, groups by =).
 */
export function readableName(written: string | undefined): string | undefined {
  const groups = written?.split('=').map((group) => {
    const [family = '', given = '', middle = '', prefix = '', suffix = ''] = group
      .split('^')
      .map((part) => part.trim());
    const first = [prefix, given, middle].filter(Boolean).join(' ');
    return [family, [first, suffix].filter(Boolean).join(' ')].filter(Boolean).join(', ');
  });
  const [main, ...others] = groups?.filter(Boolean) ?? [];
  if (main === undefined) return undefined;
  return others.length > 0 ? `${main} (${others.join('; ')})` : main;
}
