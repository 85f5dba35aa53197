import type { CannotTell } from "../../shared/findings/cannot-tell";
import type { SensorFinding } from "../../shared/findings/finding";
import { isCannotTell } from "../../shared/findings/segment";
import type { Span } from "../../shared/findings/span";
import { channelsOf, mainChannel } from "../../shared/record/find-channel";
import type { LogFaultKind } from "../../shared/record/log-fault";
import { pascalDifference } from "../../shared/units/pressure";
import { valuesWithoutSpikes } from "../faults/observed";
import { levelStep, noiseOf } from "../segments/pressure-noise";
import type { Detector, Evidence } from "./detector";
import { betweenTwo } from "./sensor/between-two";
import { isFrost } from "./sensor/frost";
import { lagBehindFlow } from "./sensor/lag";
import { noiseWithFlow } from "./sensor/noise-with-flow";
import { scaleRatio } from "./sensor/scale";

/**
 * How far the pressure sensor is to be trusted: noise and its growth with flow (turbulence), lag behind flow, stuck, frozen or pinned readings, a wrong
 * scale against the site facts, and what lies between two sensors. Always found where pressure is logged; what cannot be known is null.
 */
export const sensor: Detector<"sensor"> = {
  kind: "sensor",
  detect(evidence) {
    const kind = "sensor" as const;
    const { record, faults } = evidence;
    const pressure = mainChannel(record, "pressure");
    if (pressure === null) return { kind, state: "cannot-tell", because: [{ id: "no-pressure-channel", about: "cause", detail: {} }] };
    const held = spansOf(evidence, "stuck-value");
    const stuck = held.filter((span) => !isFrost(record, span));
    const frozen = held.filter((span) => isFrost(record, span));
    const pinned = [...spansOf(evidence, "clipped"), ...spansOf(evidence, "above-range")];
    const values = valuesWithoutSpikes(pressure, faults);
    const noise = noiseOf(values);
    const coarse = levelStep(values) > noise;
    const growth = noiseWithFlow(evidence, pressure);
    const finding: SensorFinding = {
      kind,
      places: [...held, ...pinned],
      channels: channelsOf(record, "pressure").map((channel) => channel.heading),
      noise: noise > 0 && !coarse ? pascalDifference(noise) : null,
      noiseGrowsWithFlow: growth?.grows ?? null,
      noiseGrowth: growth?.perFlowSquared ?? null,
      lag: lagBehindFlow(evidence, pressure),
      stuck,
      frozen,
      pinned,
      scaleRatio: scaleRatio(evidence, pressure),
      ...betweenTwo(evidence),
    };
    return { kind, state: "found", finding, limits: limitsOf(evidence, coarse) };
  },
};

function spansOf({ record, faults }: Evidence, kind: LogFaultKind): Span[] {
  const headings = channelsOf(record, "pressure").map((channel) => channel.heading);
  return faults
    .filter((fault) => fault.kind === kind && fault.channel !== null && headings.includes(fault.channel))
    .map(({ from, to }) => ({ from, to }));
}

function limitsOf({ record, segments }: Evidence, coarse: boolean): CannotTell[] {
  const missing = mainChannel(record, "flow") === null && isCannotTell(segments.draw);
  if (coarse) return [{ id: "quantised-too-coarse", about: "cause", detail: {} }];
  return missing ? [{ id: "no-flow-channel", about: "cause", detail: { missing: "flow" } }] : [];
}
