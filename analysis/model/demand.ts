/** What people draw: a staircase of flows, each holding from its time to the next. Shape [n] both; times rise from 0. */
export type Demand = {
  readonly times: Float64Array; // s
  readonly flows: Float64Array; // m3/s at the reference pressure
  /** Gauge, Pa: where `flows` is meant. */
  readonly referencePressure: number;
  /** 0.5: open taps, flow as the root of pressure. 0: drawn whatever the pressure (dies away only near 0). */
  readonly exponent: 0 | 0.5;
};

/** A draw of a given flow for a time. */
export type DemandEvent = { readonly from: number; readonly to: number; readonly flow: number };

/**
 * Events that may overlap, added up to a staircase. O(n log n).
 * @throws RangeError where an event ends before it starts or has a flow below 0
 */
export function demandOf(events: readonly DemandEvent[], referencePressure: number, exponent: 0 | 0.5 = 0.5): Demand {
  const bad = events.find((event) => !(event.to >= event.from && event.flow >= 0));
  if (bad !== undefined) throw new RangeError(`demandOf: from ${bad.from} to ${bad.to} s, ${bad.flow} m3/s`);
  const edges = events.flatMap((event) => [
    { at: Math.max(0, event.from), by: event.flow },
    { at: Math.max(0, event.to), by: -event.flow },
  ]);
  edges.sort((a, b) => a.at - b.at);
  const times: number[] = [0];
  const flows: number[] = [0];
  let flow = 0;
  for (const edge of edges) {
    flow += edge.by;
    if (Math.abs(flow) < 1e-12) flow = 0; // sums of many draws leave rounding behind
    if (edge.at === times[times.length - 1]) flows[flows.length - 1] = flow;
    else {
      times.push(edge.at);
      flows.push(flow);
    }
  }
  return { times: Float64Array.from(times), flows: Float64Array.from(flows), referencePressure, exponent };
}

/** A staircase as it is, for a draw taken from a meter: flow i holds from time i. Shape [n] both. @throws RangeError where the lengths differ */
export function demandFromMeter(times: Float64Array, flows: ArrayLike<number>, referencePressure: number, exponent: 0 | 0.5): Demand {
  if (times.length !== flows.length) throw new RangeError(`demandFromMeter: ${times.length} times, ${flows.length} flows`);
  const sound = new Float64Array(flows.length);
  for (let i = 0; i < flows.length; i++) if (flows[i] > 0) sound[i] = flows[i];
  return { times, flows: sound, referencePressure, exponent };
}
