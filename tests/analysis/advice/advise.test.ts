import { describe, expect, test } from "vitest";
import { advise } from "../../../analysis/advice/advise";
import { RULES } from "../../../analysis/advice/rules";
import { ADVICE_IDS, type Advice, type AdviceId, type Amount } from "../../../shared/findings/advice";
import { CAUSE_IDS, type Cause, type CauseId } from "../../../shared/findings/cause";
import type { Outcome } from "../../../shared/findings/finding";
import { PASCAL_PER_PSI } from "../../../shared/units/pressure";
import { joule, seconds } from "../../../shared/units/quantity";
import {
  about,
  cyclesOf,
  foundWith,
  gpm,
  psi,
  psiDifference,
  SITE_AS_WRITTEN,
  segmentsWith,
  siteOf,
  soundOutcomes,
  swing,
  untold,
} from "../../builders/outcomes";

const GALLON = 3.785411784e-3; // m3, NIST SP 811
const LITRE = 1e-3;

const causeOf = (id: CauseId, confidence: number): Cause => ({ id, confidence, besideFirst: null, for: [], against: [], toSeparate: null });
/** The given cause alone in front, the rest far behind. */
const causesWith = (first: CauseId): Cause[] => [
  causeOf(first, 0.83),
  ...CAUSE_IDS.filter((id) => id !== first).map((id) => causeOf(id, 0.01)),
];

type Drawn = { readonly facts?: Readonly<Record<string, unknown>>; readonly outcomes?: readonly Outcome[]; readonly only?: boolean };
function adviceFor(first: CauseId, { facts = {}, outcomes = [], only = false }: Drawn = {}): Advice[] {
  const site = siteOf(only ? facts : { ...SITE_AS_WRITTEN, ...facts });
  return advise(causesWith(first), soundOutcomes(...outcomes), segmentsWith(cyclesOf(20, 300, 900)), site);
}
const stepOf = (all: readonly Advice[], id: AdviceId): Advice | undefined => all.find((a) => a.id === id);
function amountOf(all: readonly Advice[], step: AdviceId, id: Amount["id"]): Amount {
  const amount = stepOf(all, step)?.amounts.find((a) => a.id === id);
  if (amount === undefined) throw new Error(`${step} has no ${id}`);
  return amount;
}
const inPsi = ({ low, high }: Amount) => [low, high].map((p) => Math.round((p / PASCAL_PER_PSI) * 100) / 100);
const inGallons = ({ low }: Amount) => low / GALLON;

test("the rules are the list of ids, and every fault has a step that changes, brings, looks or measures", () => {
  expect(RULES.map((r) => r.id).sort()).toEqual([...ADVICE_IDS].sort());
  for (const cause of CAUSE_IDS) expect(RULES.some((r) => r.answers.includes(cause))).toBe(true);
});

describe("precharge", () => {
  const driftTo = (psiChange: number) =>
    foundWith("drift", {
      windows: [{ from: seconds(0), to: seconds(900), meanFlow: gpm(10), change: about(psiDifference(psiChange)), over: psiChange > 5 }],
    });
  test("stands 15 to 20 psi below set pressure (common practice, no source)", () => {
    expect(
      inPsi(amountOf(adviceFor("precharge-low", { facts: { precharge: "20 psi" } }), "raise-precharge", "precharge-by-practice")),
    ).toEqual([32, 37]);
  });
  test("takes the higher setting alone where drift at steady flow is over 5 psi", () => {
    const drifting = adviceFor("precharge-low", { facts: { precharge: "20 psi" }, outcomes: [driftTo(7)] });
    expect(inPsi(amountOf(drifting, "raise-precharge", "precharge-by-practice"))).toEqual([37, 37]);
    expect(stepOf(drifting, "raise-precharge")?.trust?.id).toBe("precharge-higher-setting");
  });
  test("says so where drift could not be looked at", () => {
    const unknown = adviceFor("precharge-low", { facts: { precharge: "20 psi" }, outcomes: [untold("drift")] });
    expect(stepOf(unknown, "raise-precharge")?.trust?.id).toBe("precharge-drift-unknown");
  });
  // Trade values head 3, T06 to T08 at 60 psi, sea level: 45 psi gives 0.2140 gal/psi and 4.016 gal, 40 psi 0.1961 gal/psi and 5.355 gal.
  test("shows what each end of the band does to softness and stored water", () => {
    const all = adviceFor("precharge-low", { facts: { setPressure: "60 psi", precharge: "20 psi" } });
    const perPsi = (id: Amount["id"]) => (amountOf(all, "raise-precharge", id).low * PASCAL_PER_PSI) / GALLON;
    expect(perPsi("softness-higher-setting")).toBeCloseTo(0.214, 3);
    expect(perPsi("softness-lower-setting")).toBeCloseTo(0.1961, 3);
    expect(inGallons(amountOf(all, "raise-precharge", "stored-water-higher-setting"))).toBeCloseTo(4.016, 2);
    expect(inGallons(amountOf(all, "raise-precharge", "stored-water-lower-setting"))).toBeCloseTo(5.355, 2);
  });
  test("follows cut-in with a pressure switch: 2 psi below it", () => {
    const all = adviceFor("precharge-low", {
      only: true,
      facts: { pump: "fixed-speed", cutIn: "40 psi", cutOut: "60 psi", precharge: "20 psi" },
    });
    expect(inPsi(amountOf(all, "raise-precharge", "precharge-by-switch-practice"))).toEqual([38, 38]);
  });
  test("is not raised where it stands in its band already, nor lowered where it is low", () => {
    expect(stepOf(adviceFor("precharge-low"), "raise-precharge")).toBeUndefined();
    expect(
      stepOf(adviceFor("precharge-high", { facts: { precharge: "20 psi" }, outcomes: [untold("tank-charge")] }), "lower-precharge"),
    ).toBeUndefined();
  });
  test("without a set pressure there is no amount, and so no proposal to change it", () => {
    const all = adviceFor("precharge-low", { only: true, facts: { precharge: "20 psi" }, outcomes: [untold("tracking")] });
    expect(stepOf(all, "raise-precharge")).toBeUndefined();
    expect(stepOf(all, "check-precharge")?.amounts.some((a) => a.id === "precharge-by-practice")).toBe(false);
  });
  test("as the gas shows it: K = 31 161 J in 20 US gal is 45 psi", () => {
    const all = adviceFor("precharge-low", { outcomes: [foundWith("tank-charge", { gasConstant: about(joule(31161), 1e-6) })] });
    expect(inPsi(amountOf(all, "check-precharge", "precharge-now"))[0]).toBeCloseTo(45, 1);
  });
});

describe("tank volume", () => {
  test("by practice a fifth of a minute of the pump: 100 gpm asks for 20 gal (common practice, no source)", () => {
    const all = adviceFor("tank-too-small", { facts: { pumpRatedFlow: "100 gpm", tankVolume: "5 gal" } });
    expect(inGallons(amountOf(all, "larger-tank", "tank-volume-by-practice"))).toBeCloseTo(20, 6);
  });
  // WA DOH 331-123 eq. 11-1 with the charge 5 psi below pump-on gives 1027.7 gal at 100 gpm, 40/60 psi, 6 starts/h (T05, 14.7 psi air).
  // Here the charge stands 2 psi below: Vt = 15 Qp (P1 + 14.7)(P2 + 14.7) / ((P1 - P2)(P2 + 12.7) Nc), the same algebra: 969.2 gal.
  test("by physics for the allowed starts, with a pressure switch", () => {
    const all = adviceFor("tank-too-small", {
      only: true,
      facts: {
        pump: "fixed-speed",
        cutIn: "40 psi",
        cutOut: "60 psi",
        pumpRatedFlow: "100 gpm",
        tankVolume: "80 gal",
        limits: { startsPerHour: 6 },
      },
    });
    const want = (15 * 100 * (60 + 14.696) * (40 + 14.696)) / ((60 - 40) * (40 + 12.696) * 6);
    expect(inGallons(amountOf(all, "larger-tank", "tank-volume-by-starts"))).toBeCloseTo(want, 1);
    expect(stepOf(all, "larger-tank")?.amounts.map((a) => a.id)).not.toContain("tank-volume-by-practice");
    expect(stepOf(all, "larger-tank")?.trust?.id).toBe("volume-switch");
  });
  // The one-minute rule is 15 starts per hour at the worst draw (V = Q T / 4, trade values head 4, S02).
  test("a run of a minute and 15 starts per hour ask for the same volume", () => {
    const all = adviceFor("tank-too-small", {
      only: true,
      facts: {
        pump: "fixed-speed",
        cutIn: "30 psi",
        cutOut: "50 psi",
        pumpRatedFlow: "10 gpm",
        tankVolume: "5 gal",
        limits: { startsPerHour: 15 },
      },
    });
    expect(inGallons(amountOf(all, "larger-tank", "tank-volume-by-run-time"))).toBeCloseTo(
      inGallons(amountOf(all, "larger-tank", "tank-volume-by-starts")),
      6,
    );
  });
  test("with a drive both stand side by side, with which to trust", () => {
    const all = adviceFor("tank-too-small", { facts: { tankVolume: "2 gal", restartPressure: "47 psi" } });
    expect(stepOf(all, "larger-tank")?.amounts.map((a) => a.basis)).toEqual(["common practice", "physics", "physics"]);
    expect(stepOf(all, "larger-tank")?.trust?.id).toBe("volume-drive");
    expect(stepOf(all, "larger-tank")?.expect?.id).toBe("cycle-longer");
  });
  test("a tank that has every volume asked for is not replaced by a larger one", () => {
    expect(stepOf(adviceFor("tank-too-small", { facts: { tankVolume: "200 L" } }), "larger-tank")).toBeUndefined();
    expect(0.2 * 40 * GALLON).toBeLessThan(200 * LITRE);
  });
});

describe("sensor and loop", () => {
  test("within 10 ft, with the period of the water column now and then", () => {
    const all = adviceFor("sensor-far-from-tank", { facts: { sensorToTank: "90 ft" } });
    expect(amountOf(all, "move-sensor", "sensor-distance-by-practice").high).toBeCloseTo(3.048, 6);
    // T goes with the root of the distance: 90 ft to 10 ft is a third.
    expect(amountOf(all, "move-sensor", "surge-period-now").low / amountOf(all, "move-sensor", "surge-period-moved").low).toBeCloseTo(3, 9);
    expect(stepOf(all, "move-sensor")?.cautions).toContain("frost");
  });
  test("a sensor that is near already is not moved", () => {
    expect(stepOf(adviceFor("sensor-far-from-tank"), "move-sensor")).toBeUndefined();
  });
  test("gain goes to a third up to 0.45 of a loop that keeps swinging (Ziegler and Nichols 1942; gain margin 3)", () => {
    const amount = amountOf(
      adviceFor("loop-too-aggressive", { outcomes: [swing(5, 6, "loop")] }),
      "lower-loop-gain",
      "gain-ratio-by-margin",
    );
    expect([amount.low, amount.high]).toEqual([1 / 3, 0.45]);
  });
  test("a slow swing is not answered by less gain, which would make it worse", () => {
    expect(stepOf(adviceFor("loop-too-aggressive", { outcomes: [swing(150, 6, "loop")] }), "lower-loop-gain")).toBeUndefined();
  });
});

describe("leak", () => {
  const side = (s: "system" | "back" | "unknown") =>
    adviceFor("leak-or-check-valve", { outcomes: [foundWith("leak-down", { side: s })] }).map((a) => a.id);
  test("each side sends one where the loss is, and an unknown side to both", () => {
    expect(side("system")).toContain("find-leak");
    expect(side("system")).not.toContain("check-check-valve");
    expect(side("back")).not.toContain("find-leak");
    expect(side("unknown")).toEqual(expect.arrayContaining(["find-leak", "check-check-valve"]));
  });
  test("0.4 gpm is 576 gal a day", () => {
    const all = adviceFor("leak-or-check-valve", { outcomes: [foundWith("leak-down", { flow: about(gpm(0.4), 1e-9) })] });
    expect(inGallons(amountOf(all, "find-leak", "leak-per-day"))).toBeCloseTo(576, 3);
  });
});

describe("order and safety", () => {
  const over = foundWith("over-marked-pressure", { marked: psi(125), highest: psi(131) });
  test("pressure above the tank's mark comes before everything", () => {
    const all = adviceFor("precharge-low", { facts: { precharge: "20 psi" }, outcomes: [over] });
    expect(all[0].id).toBe("stop-over-marked-pressure");
    expect(inPsi(all[0].amounts[0])).toEqual([6, 6]);
    expect(all[0].cautions[0]).toBe("marked-pressure");
  });
  test("the alarm stands even where no cause may be named", () => {
    const all = advise([], soundOutcomes(over), segmentsWith(null), siteOf());
    expect(all.map((a) => a.id)).toEqual(["stop-over-marked-pressure"]);
  });
  test("a set pressure or a pump that can pass the mark raises it too", () => {
    expect(adviceFor("healthy", { facts: { setPressure: "130 psi", tankRatedPressure: "125 psi" } })[0].id).toBe(
      "stop-over-marked-pressure",
    );
    expect(adviceFor("healthy", { facts: { tankRatedPressure: "75 psi" } })[0].id).toBe("stop-over-marked-pressure");
  });
  test("no mark is known, no alarm is invented", () => {
    const { tankRatedPressure: _, ...rest } = SITE_AS_WRITTEN;
    expect(adviceFor("healthy", { only: true, facts: rest, outcomes: [over] }).map((a) => a.id)).toEqual(["nothing-to-change"]);
  });
  test.each(CAUSE_IDS)("steps for %s run look, measure, change, bring", (id) => {
    const order = ["look", "measure", "change", "bring"];
    const steps = adviceFor(id, { facts: { precharge: "20 psi", tankVolume: "2 gal", sensorToTank: "60 ft" } }).map((a) =>
      order.indexOf(a.step),
    );
    expect(steps.length).toBeGreaterThan(0);
    expect(steps).toEqual([...steps].sort((a, b) => a - b));
  });
  test("work on the air charge stands beside locking out, waiting and relieving water, in that order", () => {
    const all = adviceFor("precharge-low", { facts: { precharge: "20 psi" } });
    for (const id of ["check-precharge", "raise-precharge"] as const)
      expect(stepOf(all, id)?.cautions.slice(0, 3)).toEqual(["isolate-power", "wait-for-stored-energy", "relieve-water-first"]);
  });
  test("every step ends with the equipment's own instructions or the local code", () => {
    for (const id of CAUSE_IDS)
      for (const step of adviceFor(id)) expect(["equipment-instructions", "local-codes-first"]).toContain(step.cautions.at(-1));
  });
  test("where no cause stands out no part is brought on a guess: more is logged", () => {
    const even = CAUSE_IDS.map((id) => causeOf(id, 1 / CAUSE_IDS.length));
    const all = advise(even, soundOutcomes(), segmentsWith(null), siteOf());
    expect(all.map((a) => a.id)).toContain("log-more");
  });
  test("a site that is sound at even odds is left alone, and not sent for another log", () => {
    const sound = [causeOf("healthy", 0.55), ...CAUSE_IDS.filter((id) => id !== "healthy").map((id) => causeOf(id, 0.45 / 17))];
    expect(advise(sound, soundOutcomes(), segmentsWith(null), siteOf()).map((a) => a.id)).toEqual(["nothing-to-change"]);
  });
  test("nothing is changed or brought for a cause that only may be", () => {
    const maybe = [causeOf("loop-too-slow", 0.29), causeOf("tank-waterlogged", 0.25), causeOf("healthy", 0.2)];
    const steps = advise(maybe, soundOutcomes(), segmentsWith(null), siteOf()).map((a) => a.step);
    expect(steps.filter((step) => step === "change" || step === "bring")).toEqual([]);
    expect(steps.length).toBeGreaterThan(0);
  });
  test("a second fault beside the first gets its steps", () => {
    const two = [causeOf("loop-too-aggressive", 0.97), { ...causeOf("leak-or-check-valve", 0.02), besideFirst: 0.9 }];
    const all = advise(two, soundOutcomes(foundWith("leak-down")), segmentsWith(null), siteOf());
    expect(all.map((a) => a.id)).toEqual(["find-leak", "lower-loop-gain"]);
  });
});
