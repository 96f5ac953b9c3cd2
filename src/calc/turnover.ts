/** How long a pool's water takes to pass the filter once. Volumes m³, flows m³/s, both above 0. */

const S_PER_H = 3600;

/** Hours in which a flow moves the pool's volume once: t = V / Q. */
export function turnoverHours(volumeM3: number, flowM3PerS: number): number {
  return volumeM3 / flowM3PerS / S_PER_H;
}

/** The flow, m³/s, that moves the pool's volume once in the hours given (above 0): Q = V / t. */
export function flowForTurnoverM3PerS(volumeM3: number, hours: number): number {
  return volumeM3 / (hours * S_PER_H);
}
