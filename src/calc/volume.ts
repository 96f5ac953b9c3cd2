/** How much water a pool of a usual shape holds. Lengths m, areas m², volumes m³; any values above 0. */

/** Surface of a rectangle. Exact. */
export function rectangleAreaM2(lengthM: number, widthM: number): number {
  return lengthM * widthM;
}

/** Surface of a circle: π d² / 4. Exact. */
export function circleAreaM2(diameterM: number): number {
  return (Math.PI / 4) * diameterM * diameterM;
}

/** Surface of an oval taken as an ellipse: π a b / 4 of its two axes. Exact for an ellipse. */
export function ovalAreaM2(lengthM: number, widthM: number): number {
  return (Math.PI / 4) * lengthM * widthM;
}

/**
 * Surface of a kidney, approximate: 0.45 (A + B) L of the widths of its two lobes and its length.
 * Source: common practice in the pool trade, no source; expect some 10 % either way.
 */
export function kidneyAreaM2(lengthM: number, widestM: number, narrowestM: number): number {
  return 0.45 * (widestM + narrowestM) * lengthM;
}

/** Mean depth of a floor that slopes evenly from one end to the other. */
export function meanDepthM(shallowM: number, deepM: number): number {
  return (shallowM + deepM) / 2;
}
