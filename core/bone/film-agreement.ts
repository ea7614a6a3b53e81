/** How far one way of seeing bone loss before surgery agreed with what was found, as published. */
export interface Agreement {
  readonly how: 'plain films' | 'CT' | 'observers';
  readonly what: string;
  readonly value: string;
  readonly n: string;
  readonly source: string;
}

/**
 * Published agreement of the class before surgery with the class in theatre (BONE-8). A hint for the surgeon who states the
 * chance that the bone is worse than its film: no matrix of film against theatre is published, so that no chance can be worked out.
 */
export const FILM_AGREEMENT: readonly Agreement[] = [
  {
    how: 'plain films',
    what: 'class of the tibia on plain films against theatre',
    value: 'fair: kappa between 0.21 and 0.40',
    n: '99 knees',
    source: 'Brenneis 2023 (KSSTA)',
  },
  {
    how: 'CT',
    what: 'class of the tibia on three-dimensional CT against theatre',
    value: 'substantial: kappa 0.66',
    n: '99 knees',
    source: 'Brenneis 2023 (KSSTA)',
  },
  {
    how: 'observers',
    what: 'six trained surgeons on the same plain films, more than 80 % of them alike',
    value: '12 of 26 femora, 7 of 26 tibiae',
    n: '26 knees',
    source: 'Pécora 2011 (Acta Ortop Bras 19:368)',
  },
  {
    how: 'CT',
    what: 'CT against plain films in two views for bone loss in cadaver knees',
    value: 'CT better, P = 0.008',
    n: '9 defects, 12 radiologists',
    source: 'J Orthop Surg Res 2008; 3:47',
  },
];

/** One line beside every class that comes from plain films. */
export const FILM_CLASS_CAUTION =
  'A class from plain films agrees only fairly with theatre (kappa 0.21 to 0.40, tibia, 99 knees, Brenneis 2023): be ready for one class worse.';
