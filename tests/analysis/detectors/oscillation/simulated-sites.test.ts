import { describe, expect, test } from "vitest";
import { oscillation } from "../../../../analysis/detectors/oscillation";
import { demandOf } from "../../../../analysis/model/demand";
import { householdDraws, steadyDraw, swingingDraw } from "../../../../analysis/model/draws";
import { simulateSite } from "../../../../analysis/model/simulate-site";
import type { SiteModel } from "../../../../analysis/model/site-model";
import { withSwitch } from "../../../../analysis/model/sound-site";
import { visitRecord } from "../../../../analysis/model/visit-record";
import { PASCAL_PER_PSI as PSI } from "../../../../shared/units/pressure";
import { evidenceOf } from "../../../builders/evidence";
import { driveOf, exampleSite, GPM, withDrive } from "../../../builders/model-sites";

const SET = 58 * PSI;
const HOURS = 3600;

function visitTo(site: SiteModel, draws: Parameters<typeof demandOf>[0], duration: number) {
  const visit = simulateSite(site, demandOf(draws, SET), duration, 5);
  const outcome = oscillation.detect(evidenceOf(visitRecord(visit), { flowMeter: "after-tank" }));
  return { truth: visit.truth, outcome, episodes: outcome.state === "found" ? outcome.finding.episodes : [] };
}

describe("simulated sites", () => {
  test("a sound site, busy with twelve homes, does not oscillate", () => {
    expect(visitTo(exampleSite(), householdDraws(12, 3 * HOURS, 3, 6, 120), 3 * HOURS).outcome.state).toBe("clear");
  });
  test("a pump that only switches does not oscillate", () => {
    const site = withSwitch(exampleSite(), SET - 10 * PSI, SET + 10 * PSI);
    expect(visitTo(site, householdDraws(12, 3 * HOURS, 3, 6, 120), 3 * HOURS).episodes).toEqual([]);
  });
  test("a slow loop with too much gain hunts, at the simulation's own period, and drives it itself", () => {
    const site = exampleSite();
    const slow = withDrive(site, { gain: driveOf(site).gain * 4, filter: 1, motorLag: 2, rampUp: 6, rampDown: 6 });
    const { truth, episodes } = visitTo(slow, steadyDraw(300, 2400, 10 * GPM), 2700);
    const swing = truth.oscillations.reduce((most, s) => (s.to - s.from > most.to - most.from ? s : most));
    const episode = episodes.reduce((most, e) => (e.to - e.from > most.to - most.from ? e : most));
    expect(Math.abs(episode.period.value / swing.period - 1)).toBeLessThan(0.03);
    expect(Math.abs(episode.from - swing.from)).toBeLessThan(4 * swing.period);
    expect(Math.abs(episode.to - swing.to)).toBeLessThan(4 * swing.period);
    expect(Math.abs(episode.peakToPeak.value / swing.peakToPeak - 1)).toBeLessThan(0.15);
    expect(episode.drivenBy).toBe("loop");
  });
  test("a draw that swings by the clock is the demand's wave", () => {
    const { episodes } = visitTo(exampleSite(), swingingDraw(300, 2400, 45, 5 * GPM, 25 * GPM), 2700);
    const episode = episodes.reduce((most, e) => (e.to - e.from > most.to - most.from ? e : most));
    expect(Math.abs(episode.period.value - 45)).toBeLessThan(1);
    expect(episode.drivenBy).toBe("demand");
  });
});
