import { type DefectFacts, type FactName, YOUNG_BELOW } from './defect-facts.ts';

/** A value that a fact might turn out to have, in words that end a sentence such as "refused ...". */
export interface MightBe {
  readonly put: (f: DefectFacts) => DefectFacts;
  readonly words: string;
}

export const isUnknown = (facts: DefectFacts, fact: FactName): boolean =>
  facts[fact] === null || facts[fact] === undefined || facts[fact] === 'unknown';

const depth = (depthMm: number, words: string): MightBe => ({ put: (f) => ({ ...f, depthMm }), words });
const share = (unsupportedPct: number, words: string): MightBe => ({ put: (f) => ({ ...f, unsupportedPct }), words });

/** One value from each stretch between the bounds that the rules set. */
const VALUES: { readonly [F in FactName]: readonly MightBe[] } = {
  boneClass: (['1', '2A', '2B', '3'] as const).map((boneClass) => ({
    put: (f) => ({ ...f, boneClass }),
    words: `in type ${boneClass}`,
  })),
  quality: (['good', 'sclerotic', 'osteoporotic'] as const).map((quality) => ({
    put: (f) => ({ ...f, quality }),
    words: `in ${quality} bone`,
  })),
  depthMm: [
    depth(4, 'if at most 5 mm deep'),
    depth(8, 'if 5 to 10 mm deep'),
    depth(12, 'if deeper than 10 mm'),
    depth(18, 'if deeper than 15 mm'),
    depth(25, 'if deeper than 20 mm'),
  ],
  unsupportedPct: [
    share(20, 'if at most 40 % is unsupported'),
    share(45, 'if more than 40 % is unsupported'),
    share(60, 'if more than half is unsupported'),
  ],
  containment: (['contained', 'uncontained'] as const).map((containment) => ({
    put: (f) => ({ ...f, containment }),
    words: `if ${containment}`,
  })),
  age: [
    { put: (f) => ({ ...f, age: YOUNG_BELOW - 10 }), words: `under ${YOUNG_BELOW} years` },
    { put: (f) => ({ ...f, age: YOUNG_BELOW + 10 }), words: `from ${YOUNG_BELOW} years` },
  ],
  demand: (['low', 'high'] as const).map((demand) => ({
    put: (f) => ({ ...f, demand }),
    words: `if ${demand === 'low' ? 'little' : 'much'} is asked of the knee`,
  })),
  attachmentLost: [true, false].map((attachmentLost) => ({
    put: (f) => ({ ...f, attachmentLost }),
    words: attachmentLost ? 'if an attachment is lost' : 'if the attachments hold',
  })),
  failedBefore: [true, false].map((failedBefore) => ({
    put: (f) => ({ ...f, failedBefore }),
    words: failedBefore ? 'after failed reconstruction' : 'without failed reconstruction',
  })),
};

/** What a fact that is not known might be. */
export const mightBe = (fact: FactName): readonly MightBe[] => VALUES[fact];
