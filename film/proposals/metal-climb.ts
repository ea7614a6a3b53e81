/**
 * An edge that climbs by this share of the film's range of grey within about a millimetre is one of metal; the wall of a bone
 * sets in more gently (on the phantoms of docs/proposals.md by 0.03 to 0.22, metal by 0.5 and more).
 */
export const METAL_CLIMB = 0.28;
