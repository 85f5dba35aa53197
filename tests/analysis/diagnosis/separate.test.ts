import { describe, expect, test } from "vitest";
import { HAND_CHECKS } from "../../../analysis/diagnosis/checks";
import { rank } from "../../../analysis/diagnosis/rank";
import { expectedGain, mayReverse, separate } from "../../../analysis/diagnosis/separate";
import { CAUSE_IDS } from "../../../shared/findings/cause";
import type { ObservationId } from "../../../shared/findings/observation";
import { channelOf, NO_FACTS, observationsOf, psi, recordOf, SITE_AS_WRITTEN, siteOf, usualChannels } from "../../builders/outcomes";

type Drawn = Partial<Record<ObservationId, string>>;
function firstCheck(drawn: Drawn, site = siteOf(), record = recordOf()) {
  const observations = observationsOf(drawn);
  return separate(rank(observations), observations, site, record)[0];
}

describe("expected gain of information", () => {
  test("a question that settles an even choice brings 1 bit", () => {
    expect(expectedGain({ yes: 1, no: 0 }, { yes: 0, no: 1 }, 0.5)).toBeCloseTo(1, 12);
  });
  test("a question both answer alike brings nothing", () => {
    expect(expectedGain({ yes: 0.3, no: 0.7 }, { yes: 0.3, no: 0.7 }, 0.4)).toBeCloseTo(0, 12);
  });
  // Cover and Thomas, Elements of Information Theory, binary symmetric channel (from memory): I = 1 - H(0.1) = 0.531 bits.
  test("nine in ten right brings 0.531 bits", () => {
    expect(expectedGain({ yes: 0.9, no: 0.1 }, { yes: 0.1, no: 0.9 }, 0.5)).toBeCloseTo(0.531, 3);
  });
  test("nothing is left to gain where one is certain", () => {
    expect(expectedGain({ yes: 0.9, no: 0.1 }, { yes: 0.1, no: 0.9 }, 1)).toBe(0);
  });
});

describe("a check is worth the trouble", () => {
  // Bayes by hand: 0.8 x 0.1 = 0.08 against 0.2 x 0.9 = 0.18 reverses; 0.95 x 0.1 = 0.095 against 0.05 x 0.9 = 0.045 does not.
  test("where an outcome would put the other first", () => {
    expect(mayReverse({ yes: 0.9, no: 0.1 }, { yes: 0.1, no: 0.9 }, 0.8)).toBe(true);
    expect(mayReverse({ yes: 0.1, no: 0.9 }, { yes: 0.9, no: 0.1 }, 0.2)).toBe(true);
  });
  test("and not where it could only confirm what stands", () => {
    expect(mayReverse({ yes: 0.9, no: 0.1 }, { yes: 0.1, no: 0.9 }, 0.95)).toBe(false);
  });
});

test("the usual results of every check sum to 1", () => {
  for (const check of HAND_CHECKS) expect(Object.values(check.usual).reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12);
});

test("hardly any gas at work: the charge is read or the air valve pressed, and each result points its way", () => {
  const check = firstCheck({ "gas-constant": "collapsed" });
  expect(check?.cause).toBe("tank-waterlogged");
  expect(["precharge-high", "precharge-low"]).toContain(check?.rival);
  expect(["read-precharge", "press-air-valve"]).toContain(check?.check);
  const pointed = new Map(
    (check?.outcomes ?? []).flatMap((o) => (o.shows.kind === "result" ? [[o.shows.result, o.pointsTo] as const] : [])),
  );
  if (check?.check === "press-air-valve") expect(pointed.get("water-at-valve")).toBe("tank-waterlogged");
  else expect(pointed.get(check?.rival === "precharge-high" ? "charge-high" : "charge-right")).not.toBe("tank-waterlogged");
});

test("far sensor or hot loop with the distance unknown: measure the distance", () => {
  const { sensorToTank: _, ...rest } = SITE_AS_WRITTEN;
  const observations = observationsOf({ oscillation: "large", "oscillation-driver": "loop", "oscillation-period": "fast" });
  const checks = separate(rank(observations), observations, siteOf(rest), recordOf());
  const check = checks.find((s) => s?.cause === "sensor-far-from-tank");
  expect(check?.rival).toBe("loop-too-aggressive");
  // A tape along the pipe, or a second pressure that shows what lies between: both answer the same question.
  expect(["measure-sensor-distance", "log-second-pressure"]).toContain(check?.check);
});

test("a fact that is given and a channel that is logged are not asked for again", () => {
  const all = [...usualChannels(), channelOf("speed", "fraction", [1, 1]), channelOf("pressure", "gaugePressure", [psi(50)])];
  for (const drawn of [{}, { oscillation: "large" }, { runs: "mostly-short" }] satisfies Drawn[]) {
    const observations = observationsOf(drawn);
    const asked = separate(rank(observations), observations, siteOf(), recordOf(all), CAUSE_IDS.length).map((s) => s?.check);
    for (const id of ["ask-set-pressure", "ask-tank-volume", "log-flow", "log-speed", "log-second-pressure"])
      expect(asked).not.toContain(id);
  }
});

test("every proposal says what each outcome means, and its outcomes do not all point one way", () => {
  const observations = observationsOf({ runs: "mostly-short", oscillation: "large" });
  const proposals = separate(rank(observations), observations, NO_FACTS, recordOf(), CAUSE_IDS.length).filter((s) => s !== null);
  expect(proposals.length).toBeGreaterThan(5);
  for (const { cause, rival, outcomes, gainBits } of proposals) {
    expect(new Set(outcomes.map((o) => o.pointsTo))).toEqual(new Set([cause, rival]));
    expect(gainBits).toBeGreaterThan(0);
    expect(gainBits).toBeLessThanOrEqual(1);
  }
});
