import { describe, expect, test } from "vitest";
import { analyse } from "../../../analysis/analyse";
import { seededRandom } from "../../../analysis/numerics/random";
import { findingOf } from "../../../shared/findings/finding";
import { isCannotTell, type Run } from "../../../shared/findings/segment";
import { readSiteFacts } from "../../../shared/site/read-site-facts";
import { type Cells, eachSecond, onChange, plant, type Row, readRows, type Signals } from "../../builders/on-change-log";

/** The same water room at each second and on change: what is thinned by a dead band tells the same events. Metamorphic; the dead band's part is derived beside. */
const SECONDS = 30_000;
const SITE = readSiteFacts({ pump: "fixed-speed", cutIn: "300 kPa", cutOut: "450 kPa" }, "site.json");
const HOW: readonly (readonly [string, number, Cells])[] = [
  ["a cell for each change, no heartbeat", Number.POSITIVE_INFINITY, "changed"],
  ["a cell for each change, a heartbeat", 120, "changed"],
  ["whole rows, no heartbeat", Number.POSITIVE_INFINITY, "all"],
  ["whole rows, a heartbeat", 120, "all"],
];

async function seenIn(rows: readonly Row[], headings: readonly string[]) {
  const { record } = await readRows(rows, headings);
  const { outcomes, segments } = analyse(record, SITE);
  if (isCannotTell(segments.pump)) return { record, basis: null, runs: [] as Run[], starts: null };
  return { record, basis: segments.pump.basis, runs: segments.pump.runs, starts: findingOf(outcomes, "cycling")?.starts ?? null };
}

const [pressure, , contact] = plant(SECONDS);
const random = seededRandom(4);
const current = contact.map((on) => Math.round((on === 1 ? 8 + 0.05 * random.normal() : 0.02 * Math.abs(random.normal())) * 100) / 100);
const SPEED_UP = 12; // Hz a second
const speed = contact.map((_, t) => Math.min(50, SPEED_UP * contact.slice(Math.max(0, t - 5), t).reduce((sum, on) => sum + on, 0)));

const LOGS: readonly (readonly [string, Signals, readonly string[], readonly number[]])[] = [
  ["contact", [pressure, contact], ["Pressure (kPa)", "Pump running"], [2, 1]],
  [
    "contact, of a pressure read so finely that rows mostly follow each other",
    [pressure, contact],
    ["Pressure (kPa)", "Pump running"],
    [0.1, 1],
  ],
  ["current with noise", [pressure, current], ["Pressure (kPa)", "Motor current (A)"], [2, 0.02]],
  ["current with a wide band", [pressure, current], ["Pressure (kPa)", "Motor current (A)"], [2, 0.5]],
  ["speed up a ramp", [pressure, speed], ["Pressure (kPa)", "Speed (Hz)"], [2, 0.5]],
  ["pressure alone", [pressure], ["Pressure (kPa)"], [2]],
];

/** Within its dead band of 2 kPa the pressure may turn up to 5 s after the row before, at the slowest fall to a start of 0.4 kPa a second. */
function whereItTurned(runs: readonly Run[]): void {
  const turns = (up: number) => contact.flatMap((on, t) => (t > 0 && on - contact[t - 1] === up ? [t] : []));
  const away = (t: number, from: readonly number[]) => Math.min(...from.map((other) => Math.abs(other - t)));
  for (const run of runs) {
    expect(away(run.from, turns(1)), `start at ${run.from}`).toBeLessThan(5);
    if (run.complete) expect(away(run.to, turns(-1)), `stop at ${run.to}`).toBeLessThan(5);
  }
}

describe.each(LOGS)("%s", (name, signals, headings, bands) => {
  test.each(HOW)("%s", async (_, beat, cells) => {
    const [sampled, changed] = await Promise.all([
      seenIn(eachSecond(signals), headings),
      seenIn(onChange(signals, bands, beat, cells), headings),
    ]);
    expect(sampled.runs.length).toBeGreaterThan(30);
    expect(changed.basis).toBe(sampled.basis);
    expect(changed.starts).toBe(sampled.starts);
    expect(changed.runs.length).toBe(sampled.runs.length);
    if (name === "pressure alone") return whereItTurned(changed.runs);
    // a sampled step lies halfway between two samples, a row on change tells the later one
    changed.runs.forEach((run, i) => {
      expect(Math.abs(run.from - sampled.runs[i].from), `start ${i}`).toBeLessThanOrEqual(1.5);
      expect(Math.abs(run.to - sampled.runs[i].to), `stop ${i}`).toBeLessThanOrEqual(1.5);
    });
  });
});
