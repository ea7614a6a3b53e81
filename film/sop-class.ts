/** Storage classes that hold a film, with the modality they stand for. */
const FILMS: Readonly<Record<string, string>> = {
  '1.1': 'DX',
  '1.1.1': 'DX',
  '1': 'CR',
  '7': 'SC',
  '7.2': 'SC',
  '7.3': 'SC',
  '7.4': 'SC',
  '2': 'CT',
  '4': 'MR',
};

/** Storage classes that turn up beside films, by name, so that the refusal can say what the file is. */
const OTHERS: Readonly<Record<string, string>> = {
  '1.2': 'a mammogram',
  '1.3': 'a dental film inside the mouth',
  '2.1': 'an enhanced (multi-frame) CT',
  '4.1': 'an enhanced (multi-frame) MR',
  '6.1': 'an ultrasound picture',
  '3.1': 'an ultrasound film',
  '7.1': 'a one-bit picture',
  '12.1': 'an angiogram',
  '12.2': 'a fluoroscopy run',
  '11.1': 'a presentation state without a picture',
  '66.4': 'a segmentation',
  '88.11': 'a report',
  '88.22': 'a report',
  '88.33': 'a report',
  '88.59': 'a list of key pictures',
  '104.1': 'a PDF document',
  '481.2': 'a radiotherapy dose',
  '481.3': 'a radiotherapy structure set',
  '481.5': 'a radiotherapy plan',
  '481.8': 'a radiotherapy plan',
};

const ROOT = '1.2.840.10008.5.1.4.1.1.';

export const filmModality = (sopClass: string): string | undefined =>
  sopClass.startsWith(ROOT) ? FILMS[sopClass.slice(ROOT.length)] : undefined;

/** What a file of a class that is not read holds, in words. */
export const otherContent = (sopClass: string): string =>
  (sopClass.startsWith(ROOT) ? OTHERS[sopClass.slice(ROOT.length)] : undefined) ??
  `of a kind not known here (${sopClass})`;
