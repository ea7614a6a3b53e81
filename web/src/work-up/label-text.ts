const GS = '\u001d';
/** The picture of a group separator, so that a person sees where it stands. */
const GS_SHOWN = '\u241d';

/** A label's text as shown in the box, with its invisible separators made visible. */
export const shownLabel = (text: string): string => text.replaceAll(GS, GS_SHOWN);

/** The text as it stood in the code. */
export const labelText = (shown: string): string => shown.replaceAll(GS_SHOWN, GS).trim();

/** True for the key press by which a hand scanner types a group separator: Ctrl and the closing bracket. */
export const typesSeparator = (press: { readonly key: string; readonly ctrlKey: boolean }): boolean =>
  (press.ctrlKey && press.key === ']') || press.key === GS;
