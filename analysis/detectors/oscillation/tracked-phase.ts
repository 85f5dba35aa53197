import { type Samples, steadyPhases, type WaveBlocks, waveBlocks } from "./waves";

/**
 * The phase of a wandering wave at each sample, rad: that of the steady wave, and between the middles of the blocks on a straight line from each block's own phase
 * to the next. A block's phase is that of its middle, whatever the wave's own frequency in it, so that the line follows a change of period that lasts
 * longer than a block; at the ends it goes on as it came. NaN where no two blocks have a phase.
 */
export function trackedPhases({ times }: Samples, blocks: WaveBlocks): Float64Array {
  const at: number[] = [];
  const own: number[] = [];
  for (let j = 0; j < blocks.re.length; j++) {
    if (!Number.isFinite(blocks.re[j])) continue;
    const phase = Math.atan2(blocks.im[j], blocks.re[j]);
    const before = own.length === 0 ? phase : own[own.length - 1];
    at.push(blocks.origin + (j + 0.5) * blocks.length);
    own.push(before + nearestTurn(phase - before));
  }
  const phases = steadyPhases(times, blocks.frequency, blocks.origin);
  for (let i = 0, k = 0; i < phases.length; i++) {
    while (k < at.length - 2 && times[i] > at[k + 1]) k++;
    const slope = (own[k + 1] - own[k]) / (at[k + 1] - at[k]);
    phases[i] = phases[i] + own[k] + slope * (times[i] - at[k]);
  }
  return phases;
}

/** The same angle between minus half a turn and half a turn. */
const nearestTurn = (angle: number): number => angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));

/** The blocks taken again along the wave's own phase: what turned within them no longer makes them look smaller. */
export function blocksAlong(samples: Samples, blocks: WaveBlocks, phases: Float64Array): WaveBlocks {
  return waveBlocks(samples, blocks.frequency, blocks.length * blocks.frequency, blocks.origin, blocks.re.length, phases);
}
