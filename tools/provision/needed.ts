/** A program of the system that the tests use as an independent judge, or as the browser. */
export interface Needed {
  /** Debian's package. */
  readonly package: string;
  readonly why: string;
  /** Command that succeeds where the program is there. */
  readonly probe: readonly [string, ...string[]];
}

/** All that the tests need and npm does not bring. */
export const NEEDED: readonly Needed[] = [
  { package: 'chromium', why: 'the browser that the pages are tested in', probe: ['chromium', '--version'] },
  { package: 'dcmtk', why: 'an independent reader of DICOM', probe: ['dcmdump', '--version'] },
  { package: 'dicom3tools', why: 'an independent judge of DICOM files', probe: ['sh', '-c', 'command -v dciodvfy'] },
  { package: 'poppler-utils', why: 'an independent reader of PDF', probe: ['pdftotext', '-v'] },
  {
    package: 'python3-pydicom',
    why: 'a second independent reader of DICOM',
    // Debian's own Python: another one that comes first in PATH knows nothing of Debian's packages.
    probe: ['/usr/bin/python3', '-c', 'import pydicom'],
  },
  { package: 'strace', why: 'shows that every commit reaches the disk', probe: ['strace', '-V'] },
];
