import { type Demand, demandFromMeter } from "../demand";
import type { SiteModel } from "../site-model";
import { tankGasConstant } from "../site-model";
import type { Trace } from "./trace";

const SMOOTH = 6; // s over which the tank's part is averaged: the slope of a noisy pressure is noisier still

/**
 * What was drawn, as openings of taps: the flow they would give at the set pressure, so that a changed pressure changes the draw.
 * After the tank the meter tells (less the leak it sees); before the tank the tank's part is added, K d(1/p)/dt; without a meter the tank's
 * fall tells at rest, and while the pump runs the pump's curve at the logged speed.
 * @returns null where none of the three can be had
 */
export function drawFromTrace(trace: Trace, site: SiteModel, reference: number, from = 0, to = trace.times.length): Demand | null {
  const count = to - from;
  const flows = new Float64Array(count);
  const source = flowSource(trace, site);
  if (source === null) return null;
  for (let k = 0; k < count; k++) {
    const i = from + k;
    const flow = source(i);
    const p = trace.pressure[i];
    const openness = p > 0.1 * reference ? Math.sqrt(reference / p) : 1;
    flows[k] = Number.isFinite(flow) && flow > 0 ? flow * openness : 0;
  }
  const times = trace.times.slice(from, to).map((t) => Math.max(0, t - trace.times[from] - trace.interval / 2));
  return demandFromMeter(times, flows, reference, 0.5);
}

function flowSource(trace: Trace, site: SiteModel): ((i: number) => number) | null {
  const { flow, meter, speed, run } = trace;
  const tankGives = tankOutflow(trace, site);
  if (flow !== null && meter !== "before-tank") return (i) => flow[i] - (site.logger.meter.seesLeak ? site.systemLeak : 0);
  if (flow !== null) return (i) => flow[i] + tankGives(i);
  if (site.control.kind === "fixed-speed" || speed !== null) {
    const pumped = (i: number) => {
      if (run[i] < 0) return 0;
      const s = speed === null ? 1 : speed[i];
      const head = s * s * site.pump.shutoff - trace.pressure[i];
      return head > 0 ? Math.sqrt(head / site.pump.steepness) : 0;
    };
    return (i) => pumped(i) + tankGives(i) - site.systemLeak;
  }
  return null;
}

function tankOutflow(trace: Trace, site: SiteModel): (i: number) => number {
  const reach = Math.max(1, Math.round(SMOOTH / 2 / trace.interval));
  const constant = tankGasConstant(site);
  return (i) => {
    const [a, b] = [Math.max(0, i - reach), Math.min(trace.times.length - 1, i + reach)];
    const [before, after] = [trace.pressure[a] + site.atmosphere, trace.pressure[b] + site.atmosphere];
    return (constant * (1 / after - 1 / before)) / (trace.times[b] - trace.times[a]);
  };
}
