import type { Outcome, TrackingFinding } from "../../shared/findings/finding";
import { isCannotTell } from "../../shared/findings/segment";
import { mainChannel } from "../../shared/record/find-channel";
import type { Channel } from "../../shared/record/log-record";
import { gaugePascal, pascalDifference } from "../../shared/units/pressure";
import { type EvenStretch, evenStretches } from "../segments/even-stretch";
import { isWithin } from "../segments/is-within";
import type { Detector, Evidence } from "./detector";
import { findDroop } from "./tracking/droop";
import { otherSetPressure } from "./tracking/other-set-pressure";
import { findSetPressure } from "./tracking/set-pressure";
import { worstDip } from "./tracking/worst-dip";

/**
 * How well pressure keeps to its set pressure while the pump runs: mean error, share of time within the site's band, worst dip after a draw
 * begins, lowest and highest, fall with flow.
 * Where a drive was set to another pressure by the clock, as at night, it is judged by that one there. Wrong where the set pressure changed in another way. A pump that only switches has no set pressure; its error and share are not said.
 */
export const tracking: Detector<"tracking"> = {
  kind: "tracking",
  detect(evidence: Evidence): Outcome<"tracking"> {
    const pressure = mainChannel(evidence.record, "pressure");
    if (pressure === null)
      return { kind: "tracking", state: "cannot-tell", because: [{ id: "no-pressure-channel", about: "cause", detail: {} }] };
    const all = evenStretches(pressure, evidence.faults, null, 1);
    const whole = extremes(all);
    if (whole === null)
      return { kind: "tracking", state: "cannot-tell", because: [{ id: "record-too-short", about: "cause", detail: {} }] };
    const running = whileRunning(evidence, pressure, all);
    const set = findSetPressure(evidence, running);
    const band = evidence.site.limits.band.value;
    const other = set === null ? null : otherSetPressure(evidence, pressure, set.value);
    const kept =
      set === null ? null : keeping(running, (t) => (other !== null && isWithin(other.times, t) ? other.level : set.value), band);
    const finding: TrackingFinding = {
      kind: "tracking",
      places: [],
      channels: [pressure.heading],
      setPressure: set === null ? null : gaugePascal(set.value),
      setPressureFrom: set === null ? null : set.from,
      meanError: kept === null ? null : pascalDifference(kept.meanError),
      band: pascalDifference(band),
      shareWithinBand: kept === null ? null : kept.share,
      lowest: gaugePascal(whole.low),
      highest: gaugePascal(whole.high),
      droop: findDroop(evidence, pressure),
      worstDip: set === null ? null : worstDip(evidence, pressure, set.value, band, other?.times ?? []),
      otherSetPressure: other,
    };
    return { kind: "tracking", state: "found", finding, limits: [] };
  },
};

/** Stretches of pressure with the pump running; the whole record where its state is not known. */
function whileRunning({ segments: { pump }, faults }: Evidence, pressure: Channel, all: readonly EvenStretch[]): readonly EvenStretch[] {
  if (isCannotTell(pump)) return all;
  return evenStretches(pressure, faults, pump.mode === "always-running" ? pump.observed : pump.runs, 1);
}

function extremes(stretches: readonly EvenStretch[]): { low: number; high: number } | null {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const { values } of stretches) {
    for (let i = 0; i < values.length; i++) {
      if (values[i] < low) low = values[i];
      if (values[i] > high) high = values[i];
    }
  }
  return low <= high ? { low, high } : null;
}

function keeping(
  stretches: readonly EvenStretch[],
  setAt: (t: number) => number,
  band: number,
): { meanError: number; share: number } | null {
  let n = 0;
  let within = 0;
  let sum = 0;
  for (const { values, from, step } of stretches) {
    for (let i = 0; i < values.length; i++) {
      const error = values[i] - setAt(from + i * step);
      n++;
      sum += error;
      if (Math.abs(error) <= band) within++;
    }
  }
  return n === 0 ? null : { meanError: sum / n, share: within / n };
}
