import { OutOfReach, Refused } from '../wire/api.ts';

/** What went wrong and what to do, in one or two sentences. */
export function faultText(fault: unknown): string {
  if (fault instanceof Refused) {
    const { message, file, mend } = fault.error;
    return [file ? `${file}: ${message}` : message, mend].filter(Boolean).join(' ');
  }
  if (fault instanceof OutOfReach)
    return 'The workbench does not answer. Start it again with "npm start", then reload this page.';
  return 'Something went wrong in this page. Reload it; nothing that was saved is lost.';
}
