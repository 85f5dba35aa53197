import { describe, expect, test } from "vitest";
import { demandOf } from "../../../analysis/model/demand";
import { steadyDraw } from "../../../analysis/model/draws";
import { simulateSite } from "../../../analysis/model/simulate-site";
import type { SiteModel } from "../../../analysis/model/site-model";
import { PASCAL_PER_PSI as PSI } from "../../../shared/units/pressure";
import { exampleSite, GPM, withCharge, withGain, withTankAway } from "../../builders/model-sites";

/** Seconds of swinging in ten minutes of steady draw, once the start is over. */
function swinging(site: SiteModel, gpm: number): number {
  const { truth } = simulateSite(site, demandOf(steadyDraw(30, 700, gpm * GPM), 58 * PSI), 700, 1);
  return truth.oscillations.reduce((sum, swing) => sum + Math.max(0, swing.to - Math.max(100, swing.from)), 0);
}

describe("a swing comes out of the physics and goes when they are mended", () => {
  test("the sound site does not swing at any draw", () => {
    for (const gpm of [5, 10, 20, 30]) expect(swinging(exampleSite(), gpm)).toBe(0);
  });
  test("sensor far from the tank: the same loop swings; beside the tank it does not", () => {
    const hot = withGain(exampleSite(), 4);
    expect(swinging(withTankAway(hot, 20), 10)).toBeGreaterThan(500);
    expect(swinging(hot, 10)).toBe(0);
  });
  test("charge lost: the same loop swings; with its charge it does not", () => {
    const brisk = withGain(exampleSite(), 3);
    for (const gpm of [5, 7, 8]) {
      expect(swinging(withCharge(brisk, 5), gpm)).toBeGreaterThan(500);
      expect(swinging(brisk, gpm)).toBe(0);
    }
  });
  test("gain too high: swings", () => expect(swinging(withGain(exampleSite(), 10), 5)).toBeGreaterThan(500));
});
