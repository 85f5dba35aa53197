import { isCannotTell } from "../../../shared/findings/segment";
import { channelsOf } from "../../../shared/record/find-channel";
import type { EvenStretch } from "../../segments/even-stretch";
import type { Evidence } from "../detector";

/** Share of the running time that must lie near one pressure before that one is taken for the set pressure. */
const LEAST_SHARE = 0.3;

/** Nobody holds less than this at a site with a tank. Common practice, no source. */
const LEAST_PRESSURE = 50e3; // Pa

/**
 * The set pressure: as given, else the pressure that a variable-speed pump keeps to most of its running time, else null. A pump that only
 * switches keeps to none.
 */
export function findSetPressure(
  { site, record, segments: { pump } }: Evidence,
  running: readonly EvenStretch[],
): { readonly value: number; readonly from: "given" | "log" } | null {
  if (site.setPressure !== null) return { value: site.setPressure.value, from: "given" };
  if (site.pump === "fixed-speed") return null;
  const variable =
    site.pump === "variable-speed" || channelsOf(record, "speed").length > 0 || (!isCannotTell(pump) && pump.mode === "always-running");
  if (!variable) return null;
  const kept = mostKept(running, 2 * site.limits.band.value);
  return kept === null || kept.share < LEAST_SHARE || kept.value < LEAST_PRESSURE ? null : { value: kept.value, from: "log" };
}

/** Middle of the values in the fullest window of the given width, and the share of values in it. Shape [n] in all; O(n log n) on a selection. */
function mostKept(stretches: readonly EvenStretch[], width: number): { value: number; share: number } | null {
  const total = stretches.reduce((sum, s) => sum + s.values.length, 0);
  const stride = Math.max(1, Math.floor(total / 50_000));
  const some = new Float64Array(Math.ceil(total / stride) + stretches.length);
  let n = 0;
  for (const { values } of stretches) for (let i = 0; i < values.length && n < some.length; i += stride) some[n++] = values[i];
  if (n === 0) return null;
  const sorted = some.subarray(0, n).sort();
  let best = 0;
  let bestCount = 0;
  for (let i = 0, j = 0; i < n; i++) {
    while (j < n && sorted[j] - sorted[i] <= width) j++;
    if (j - i > bestCount) {
      bestCount = j - i;
      best = i;
    }
  }
  return { value: sorted[best + (bestCount >> 1)], share: bestCount / n };
}
