/**
 * Space under one side of the femur's distal face, spec section 4: flush level `l = D - td - a`, space `l - J`.
 *
 * @param supportMm D: distal support, mm proximal to the target joint line.
 * @param part td and a: thickness of the component and of its augment, mm.
 * @param femurProximalMm J: where the distal surface stands, mm proximal to the target joint line.
 * @returns mm; + = filled with cement, - = bone cut, 0 = flush.
 */
export const distalSpaceMm = (
  supportMm: number,
  part: { readonly thicknessMm: number; readonly augmentMm: number },
  femurProximalMm: number,
): number => supportMm - part.thicknessMm - part.augmentMm - femurProximalMm;

/**
 * Space under one side of the femur's posterior face: `P - tp - b - q`.
 *
 * @param supportMm P: posterior support, mm anterior to the target posterior line.
 * @param part tp and b, mm.
 * @param femurAnteriorMm q: where the posterior surface stands, mm anterior to the target posterior line.
 * @returns mm; + = filled with cement, - = bone cut, 0 = flush.
 */
export const posteriorSpaceMm = (
  supportMm: number,
  part: { readonly thicknessMm: number; readonly augmentMm: number },
  femurAnteriorMm: number,
): number => supportMm - part.thicknessMm - part.augmentMm - femurAnteriorMm;

/**
 * Where the posterior surface stands for a femur whose flange lies `o` off flush: `q = A0 - A - o`.
 *
 * @param anteriorToPosteriorMm A0: anterior cortex to target posterior line, mm.
 * @param apMm A: the component, flange face to posterior surface, mm.
 * @param posteriorShiftMm o: shift backwards, from stem offset and from leaving the flange off the cortex, mm.
 * @returns mm anterior to the target posterior line; 0 = posterior offset as it should be.
 */
export const femurAnteriorMm = (anteriorToPosteriorMm: number, apMm: number, posteriorShiftMm: number): number =>
  anteriorToPosteriorMm - apMm - posteriorShiftMm;

/**
 * Space under one side of the tray: flush level `u = -T + g`, space `U - u`.
 *
 * @param supportMm T: tibial support, mm distal to the target joint line.
 * @param augmentMm g: block under this side, mm.
 * @param trayMm U: the tray's bone face, mm proximal to the target joint line (negative = distal).
 * @returns mm; + = filled with cement, - = bone cut, 0 = flush.
 */
export const tibialSpaceMm = (supportMm: number, augmentMm: number, trayMm: number): number =>
  trayMm + supportMm - augmentMm;

/**
 * Where the insert's surface stands: `K = U + tt + h`.
 *
 * @returns mm proximal to the target joint line; 0 = on target.
 */
export const bearingMm = (trayMm: number, trayThicknessMm: number, insertHeightMm: number): number =>
  trayMm + trayThicknessMm + insertHeightMm;

/**
 * Overhang of a component on each side when it is centred on the bone.
 *
 * @returns mm each side; + = metal beyond bone, - = bone uncovered.
 */
export const overhangMm = (componentWidthMm: number, boneWidthMm: number): number =>
  (componentWidthMm - boneWidthMm) / 2;
