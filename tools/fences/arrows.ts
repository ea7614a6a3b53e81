/**
 * The one table of allowed imports. Key: folder; value: folders it may import from (itself always).
 * Anything else fails the tests. Tests may also import what stands in `forTests`.
 */
export const ARROWS: Readonly<Record<string, readonly string[]>> = {
  'core/measure': [],
  'core/plane': ['core/measure'],
  'core/calibration': ['core/measure', 'core/plane'],
  'core/landmarks': ['core/measure', 'core/plane', 'core/calibration'],
  'core/limb': ['core/measure', 'core/plane', 'core/calibration', 'core/landmarks'],
  // Component rotation on CT stacks.
  'core/rotation': ['core/measure', 'core/plane', 'core/calibration', 'core/landmarks'],
  'core/bone': ['core/measure', 'core/plane', 'core/calibration', 'core/landmarks'],
  'core/catalogue': ['core/measure', 'core/landmarks'],
  'core/joint-line': ['core/measure', 'core/plane', 'core/calibration', 'core/landmarks'],
  'core/constraint': ['core/measure', 'core/landmarks', 'core/bone', 'core/catalogue'],
  'core/stems': ['core/measure', 'core/landmarks', 'core/bone', 'core/catalogue'],
  'core/metaphysis': ['core/measure', 'core/landmarks', 'core/bone', 'core/catalogue', 'core/stems'],
  'core/gaps': ['core/measure', 'core/landmarks', 'core/bone', 'core/catalogue', 'core/constraint', 'core/stems'],
  'core/kit': [
    'core/measure',
    'core/landmarks',
    'core/bone',
    'core/catalogue',
    'core/constraint',
    'core/stems',
    'core/gaps',
    'core/forecast',
    'core/laboratory/day.ts',
  ],
  // What may be found: draws of the bone state, and what the construct becomes.
  'core/forecast': [
    'core/measure',
    'core/landmarks',
    'core/bone',
    'core/catalogue',
    'core/constraint',
    'core/stems',
    'core/gaps',
  ],
  'core/learning': ['core/measure', 'core/landmarks', 'core/bone', 'core/catalogue', 'core/gaps', 'core/forecast'],
  // Two dates of one knee.
  'core/compare': ['core/measure', 'core/plane', 'core/calibration', 'core/landmarks', 'core/limb', 'core/failure'],
  'core/failure': ['core/measure'],
  'core/host': ['core/measure'],
  'core/laboratory': ['core/measure'],
  'core/survival': ['core/measure'],
  'core/infection': ['core/measure', 'core/laboratory'],
  'core/work-up': ['core/measure', 'core/laboratory', 'core/infection', 'core/failure', 'core/host'],
  'core/plan': [
    'core/work-up',
    'core/failure',
    'core/host',
    'core/laboratory',
    'core/survival',
    'core/infection',
    'core/measure',
    'core/plane',
    'core/calibration',
    'core/landmarks',
    'core/limb',
    'core/compare',
    'core/rotation',
    'core/bone',
    'core/catalogue',
    'core/joint-line',
    'core/constraint',
    'core/stems',
    'core/metaphysis',
    'core/gaps',
    'core/forecast',
    'core/kit',
    'core/learning',
  ],
  film: ['core'],
  // What is looked for on a picture: no reading of files, so that the page can do it as well.
  'film/proposals': ['core/measure', 'core/plane', 'core/stems/canal-trace.ts'],
  exchange: ['core'],
  store: ['core/plan', 'core/measure'],
  sheet: ['core', 'film'],
  // The forward model shares the vocabulary and the file formats with the estimators, never a formula.
  phantoms: [
    'core/measure',
    'core/landmarks/landmark-table.ts',
    'core/landmarks/mark.ts',
    'core/landmarks/side.ts',
    'core/landmarks/view.ts',
    'core/calibration/film-scale-facts.ts',
    'core/plan/case.ts',
    'film/write',
  ],
  // The start builds the pages; the server itself knows nothing of them.
  server: ['core', 'film', 'exchange', 'store', 'sheet', 'phantoms', 'web/build.ts'],
  web: ['core', 'film/proposals', 'server/src/contract.ts'],
  cli: ['core', 'film', 'exchange', 'sheet', 'phantoms'],
  tools: ['bench', 'catalogues', 'core', 'film', 'exchange', 'store', 'sheet', 'phantoms', 'server', 'web', 'cli'],
  cases: ['core', 'film', 'exchange', 'store', 'sheet', 'phantoms', 'cli'],
};

/** Folders of core that any test beside the code may read besides: data of the example catalogue and cases. */
export const FOR_TESTS: readonly string[] = ['catalogues', 'kits', 'cases', 'phantoms', 'film', 'exchange'];

/** Packages from outside that a folder may use; core is kept free of them but for seeded randomness. */
export const PACKAGES: Readonly<Record<string, readonly string[]>> = {
  core: ['pure-rand'],
};
