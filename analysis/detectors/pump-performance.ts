import type { CannotTell } from "../../shared/findings/cannot-tell";
import type { PumpPerformanceFinding } from "../../shared/findings/finding";
import { isCannotTell } from "../../shared/findings/segment";
import { mainChannel } from "../../shared/record/find-channel";
import { gaugePascal } from "../../shared/units/pressure";
import type { Detector } from "./detector";
import { collapses } from "./pump-performance/collapse";
import { atFullSpeed } from "./pump-performance/full-speed";
import { highestMinute } from "./pump-performance/highest-minute";
import { overdraws } from "./pump-performance/overdraw";

/** A pump chosen for its set pressure at its rated flow has about a third more at no flow: one-point curve, EPANET 2.2 manual sec. 3. */
const SHUTOFF_OVER_DESIGN = 1.33;

/**
 * What the pump does at its limits: pressure at full speed and little flow, stretches where pressure and flow collapsed while it ran (loss of prime), stretches at
 * full speed below the band (overdraw), and the highest flow held for a minute.
 * Wrong where the suction side adds pressure, which the shutoff pressure then contains.
 */
export const pumpPerformance: Detector<"pump-performance"> = {
  kind: "pump-performance",
  detect(evidence) {
    const kind = "pump-performance" as const;
    const { record, segments, site } = evidence;
    const pressure = mainChannel(record, "pressure");
    if (pressure === null) return { kind, state: "cannot-tell", because: [{ id: "no-pressure-channel", about: "cause", detail: {} }] };
    if (isCannotTell(segments.pump)) return { kind, state: "cannot-tell", because: [{ ...segments.pump, about: "cause" }] };
    const full = atFullSpeed(evidence, pressure);
    const lossOfPrime = collapses(evidence, pressure);
    const overdraw = overdraws(evidence, pressure);
    const rated = site.setPressure !== null && site.pumpRatedFlow !== null ? site.setPressure.value : null;
    const expected = rated === null ? null : gaugePascal(rated * SHUTOFF_OVER_DESIGN);
    const finding: PumpPerformanceFinding = {
      kind,
      places: [...lossOfPrime, ...overdraw],
      channels: [pressure.heading, ...(["flow", "speed"] as const).flatMap((role) => mainChannel(record, role)?.heading ?? [])],
      shutoffPressure: full?.shutoff ?? null,
      expectedShutoff: (full?.shutoff ?? null) === null ? null : expected,
      lossOfPrime,
      overdraw,
      peakFlow: highestMinute(evidence),
    };
    const limits: CannotTell[] =
      mainChannel(record, "speed") === null ? [{ id: "no-pump-state", about: "cause", detail: { missing: "speed" } }] : [];
    return { kind, state: "found", finding, limits };
  },
};
