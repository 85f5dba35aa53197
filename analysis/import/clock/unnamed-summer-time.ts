import type { ImportQuestion } from "../../../shared/record/import-question";
import { UNBROKEN_LOCAL_TIME } from "../../../shared/wording/clock-question";
import type { ClockLedger } from "./clock-ledger";
import { medianStep } from "./median-step";
import { zoneOffsets } from "./zone-offsets";

/** One place for each rule of summer time in wide use; their changes come from the platform's zone data. */
const PLACES = [
  "Europe/Berlin",
  "Europe/London",
  "Europe/Athens",
  "America/New_York",
  "Australia/Sydney",
  "Australia/Lord_Howe",
  "Pacific/Auckland",
  "America/Santiago",
  "America/Sao_Paulo",
];

/**
 * A clock of local time without a zone that skips or repeats an hour just when some zones change to or from summer time: the rows go on evenly
 * over the change, in place, and the zone is asked.
 * @param times s as if UTC, file order, shape [n]
 */
export function followSummerTime(times: Float64Array, ledger: ClockLedger): void {
  const step = medianStep(times);
  if (!(step > 0 && step < 1800)) return;
  let [shift, last] = [0, Number.NaN];
  const zones = new Set<string>();
  for (let i = 0; i < times.length; i++) {
    const t = times[i];
    if (Number.isNaN(t)) continue;
    const leap = t - last - step;
    if (isHour(leap, step)) {
      const places = placesOf(last, leap, step);
      if (places.length > 0 && goesOn(times, i, step)) {
        shift -= leap > 0 ? roundHour(leap) : -roundHour(-leap);
        for (const place of places) zones.add(place);
        const what = leap > 0 ? "skips" : "repeats";
        ledger.faults.push({
          kind: "zone-slip",
          from: last + shift + (leap > 0 ? roundHour(leap) : -roundHour(-leap)),
          to: t + shift,
          note: { kind: "summer-time", leap: what },
        });
        ledger.notes.push({ kind: "summer-time", at: t, leap: what });
      }
    }
    last = t;
    times[i] = t + shift;
  }
  if (zones.size > 0) ledger.questions.push(zoneQuestion([...zones]));
}

const isHour = (leap: number, step: number) => [3600, -3600, 1800, -1800].some((hour) => Math.abs(leap - hour) <= step / 2 + 1);
const roundHour = (leap: number) => Math.round(leap / 1800) * 1800;

/** Zones whose local clock changes by that much at that time. */
function placesOf(last: number, leap: number, step: number): string[] {
  return PLACES.filter((place) => {
    const { from, offsets } = zoneOffsets(place, last - 86400, last + 86400);
    for (let k = 1; k < from.length; k++) {
      const change = offsets[k] - offsets[k - 1];
      const localBefore = from[k] + offsets[k - 1];
      if (Math.abs(change - roundHour(leap)) < 1 && last < localBefore + 1 && last + step > localBefore - step - 1) return true;
    }
    return false;
  });
}

/** The rows after the change come at the usual step again. */
function goesOn(times: Float64Array, i: number, step: number): boolean {
  for (let k = i + 1; k < Math.min(i + 4, times.length); k++) if (!(Math.abs(times[k] - times[k - 1] - step) <= step)) return false;
  return true;
}

const zoneQuestion = (zones: readonly string[]): ImportQuestion => ({
  id: "time-zone",
  asks: { kind: "summer-time", zones },
  options: [...zones, "UTC"],
  assumed: UNBROKEN_LOCAL_TIME,
});
