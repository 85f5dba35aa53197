import type { Span } from "../../../shared/findings/span";
import { mainChannel } from "../../../shared/record/find-channel";
import type { Channel } from "../../../shared/record/log-record";
import { indexAtOrAfter, timeAt } from "../../../shared/record/sampling";
import { type GaugePascal, gaugePascal } from "../../../shared/units/pressure";
import { stretchesOf, valuesWithoutSpikes } from "../../faults/observed";
import { median, quantile } from "../../numerics/order-statistics";
import { someValues } from "../../numerics/some-values";
import { noiseOf } from "../../segments/pressure-noise";
import { runsOf } from "../../segments/switching";
import type { Evidence } from "../detector";

/** Full speed: within three per cent of 100 %, or of the highest of 45 Hz or more that was logged. */
const NEAR_FULL = 0.97;
const LEAST_LINE_FREQUENCY = 45; // Hz; 50 or 60 Hz is full
const LITTLE_FLOW = 0.1; // of the highest
const SETTLED = 3; // s

export type FullSpeed = { readonly spans: readonly Span[]; readonly shutoff: GaugePascal | null };

/** Stretches at full speed, and the pressure there while hardly any water flows; null where speed is not logged or full speed is not known. */
export function atFullSpeed({ record, faults }: Evidence, pressure: Channel): FullSpeed | null {
  const speed = mainChannel(record, "speed");
  if (speed === null) return null;
  const values = valuesWithoutSpikes(speed, faults);
  const full = fullOf(speed, values);
  if (full === null) return null;
  const limit = NEAR_FULL * full;
  const spans = runsOf(values, speed.sampling, stretchesOf(speed, faults), { on: limit, off: limit * 0.98, at: limit * 0.99 });
  return { spans, shutoff: shutoffOf(record, faults, pressure, spans) };
}

function fullOf(speed: Channel, values: ArrayLike<number>): number | null {
  if (speed.quantity === "fraction") return 1;
  const highest = quantile(someValues(values), 0.9999);
  if (speed.quantity === "frequency") return highest >= LEAST_LINE_FREQUENCY ? highest : null;
  return speed.quantity === "rotation" ? highest : null;
}

function shutoffOf(record: Evidence["record"], faults: Evidence["faults"], pressure: Channel, spans: readonly Span[]): GaugePascal | null {
  const flow = mainChannel(record, "flow");
  if (flow === null) return null;
  const flows = valuesWithoutSpikes(flow, faults);
  const little = LITTLE_FLOW * quantile(someValues(flows), 0.999);
  const values = valuesWithoutSpikes(pressure, faults);
  const noise = noiseOf(values);
  const seen: number[] = [];
  for (const { from, to } of spans) {
    for (let i = indexAtOrAfter(pressure.sampling, from + SETTLED); i < values.length && timeAt(pressure.sampling, i) <= to - STILL; i++) {
      const k = Math.min(indexAtOrAfter(flow.sampling, timeAt(pressure.sampling, i)), flows.length - 1);
      if (flows[k] <= little && isStill(pressure, values, i, noise)) seen.push(values[i]);
    }
  }
  return seen.length < 3 ? null : gaugePascal(median(seen));
}

const STILL = 8; // s over which pressure must stand still
const STILL_WITHIN = 0.005; // of the pressure

/** Whether pressure stands still over some seconds: while it rises the pump still fills the tank, past a meter behind it. */
function isStill({ sampling }: Channel, values: ArrayLike<number>, i: number, noise: number): boolean {
  const end = Math.max(i + 2, indexAtOrAfter(sampling, timeAt(sampling, i) + STILL));
  return end < values.length && Math.abs(values[end] - values[i]) < Math.max(4 * noise, STILL_WITHIN * Math.abs(values[i]));
}
