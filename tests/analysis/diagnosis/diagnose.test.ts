import { describe, expect, test } from "vitest";
import { diagnose, whyNoCause } from "../../../analysis/diagnosis/diagnose";
import { CAUSE_IDS, type CauseId } from "../../../shared/findings/cause";
import type { Outcome } from "../../../shared/findings/finding";
import type { DrawState, PumpState } from "../../../shared/findings/segment";
import type { LogRecord } from "../../../shared/record/log-record";
import { joule, seconds } from "../../../shared/units/quantity";
import {
  about,
  channelOf,
  clearOf,
  cyclesOf,
  foundWith,
  gpm,
  NO_FACTS,
  oddCycles,
  psi,
  psiDifference,
  pumpWith,
  recordOf,
  SITE_AS_WRITTEN,
  segmentsWith,
  siteOf,
  soundOutcomes,
  swing,
  untold,
  usualChannels,
} from "../../builders/outcomes";

/** A site drawn by hand: what is unlike the sound one. */
type Drawn = {
  readonly outcomes?: readonly Outcome[];
  readonly pump?: PumpState;
  readonly facts?: Readonly<Record<string, unknown>>;
  readonly draw?: DrawState;
  readonly record?: LogRecord;
};

const STEADY = oddCycles(24, 300);
const SHORT = cyclesOf(400, 20, 60);
const causesOf = ({ outcomes = [], pump = STEADY, facts = {}, draw, record = recordOf() }: Drawn) =>
  diagnose(soundOutcomes(...outcomes), segmentsWith(pump, draw), siteOf({ ...SITE_AS_WRITTEN, ...facts }), record);
const firstOf = (site: Drawn): CauseId => causesOf(site)[0].id;
const shortCycles = foundWith("short-cycles", { runs: Array.from({ length: 400 }, (_, i) => i) });
const manyStarts = foundWith("cycling", { starts: 400, peakStartsPerHour: 50, startsByDraw: { none: 0, small: 100, large: 300 } });
const tank = (share: number, emptiesAt: number | null = null) =>
  foundWith("tank-charge", { gasConstant: about(joule(25942 * share)), emptiesAt: emptiesAt === null ? null : about(psi(emptiesAt)) });
const span = { from: seconds(1000), to: seconds(4000) };
const everyTwoMinutes: DrawState = {
  basis: "flow",
  idle: [{ from: seconds(7200), to: seconds(80000) }],
  draws: Array.from({ length: 60 }, (_, i) => ({
    from: seconds(i * 120),
    to: seconds(i * 120 + 30),
    complete: true,
    volume: null,
    peakFlow: null,
  })),
};

/** Two hours at 1 s: the pressure falls by 4 psi, and rises in so many seconds. */
const everySecond = (rise: number): LogRecord =>
  recordOf(
    usualChannels().map((c) =>
      channelOf(
        c.role,
        c.quantity,
        Array.from({ length: 7200 }, (_, i) =>
          c.role === "pressure"
            ? psi(50 + 4 * Math.max(1 - (i % 80) / (80 - rise), ((i % 80) - 80 + rise) / rise))
            : c.values[Math.floor(i / 15)],
        ),
      ),
    ),
    2,
  );

/** The usual record with another pressure here and there. */
function changed(at: (seconds: number, usual: number) => number): LogRecord {
  const [pressure, ...others] = usualChannels();
  const values = Array.from(pressure.values, (p, i) => at(i * 15, p));
  return recordOf([channelOf("pressure", "gaugePressure", values, 15), ...others]);
}
/** For a span hardly any pressure is left. */
const withoutPressure = () => changed((t, p) => (t >= span.from && t <= span.to ? psi(1) : p));
/** Falls evenly all day, in every rest alike. */
const fallingPressure = () =>
  changed((t) => {
    const before = STEADY.runs.findLast((run) => run.from <= t);
    return psi(before === undefined || t < before.to ? 54 : 54 - (t - before.to) / 700);
  });
/** Stands while something happens, and is then elsewhere at once. */
const standing = () => changed((t, p) => (t >= span.from && t <= span.to ? psi(53.6) : p));
/** Over its 52 psi by a fifth for a moment after each draw. */
const overshooting = () => changed((t, p) => (t % 3600 >= 600 && t % 3600 < 630 ? psi(62) : p));

/** Pressure short of its 52 psi all day, with so much flow. */
const shortWith = (flow: number): LogRecord =>
  recordOf(
    usualChannels().map((c) =>
      channelOf(
        c.role,
        c.quantity,
        Array.from(c.values, () => (c.role === "pressure" ? psi(43) : gpm(flow))),
        15,
      ),
    ),
  );

/** One site a cause where it comes first. Invented numbers, in the direction that physics gives. */
const SITES: Readonly<Record<CauseId, Drawn>> = {
  "tank-too-small": {
    facts: { tankVolume: "2 gal" },
    outcomes: [foundWith("tank-charge", { gasConstant: about(joule(2600)), expectedGasConstant: joule(2594) }), shortCycles, manyStarts],
    pump: SHORT,
  },
  "precharge-low": {
    outcomes: [
      tank(0.55, 14),
      foundWith("drift", { windows: [{ ...span, meanFlow: gpm(10), change: about(psiDifference(7)), over: true }] }),
    ],
  },
  "precharge-high": {
    outcomes: [tank(1.4, 54), foundWith("tracking", { worstDip: { at: seconds(5), depth: psiDifference(15), recovery: seconds(6) } })],
  },
  "tank-waterlogged": { outcomes: [tank(0.08), shortCycles, manyStarts], pump: SHORT },
  "sensor-far-from-tank": { facts: { sensorToTank: "60 ft" }, outcomes: [swing(6, 8, "loop")] },
  "sensor-in-turbulence": { outcomes: [foundWith("sensor", { noise: psiDifference(2.5), noiseGrowsWithFlow: true })] },
  "sensor-port-plugged": { outcomes: [foundWith("sensor", { lag: about(seconds(12)) })], record: everySecond(40) },
  "sensor-frozen-or-stuck": { outcomes: [foundWith("sensor", { stuck: [span] })], record: standing() },
  "sensor-scaling-wrong": {
    outcomes: [foundWith("sensor", { scaleRatio: 1.45 }), foundWith("tracking", { meanError: psiDifference(24) })],
  },
  "loop-too-aggressive": { outcomes: [swing(5, 8, "loop")], record: overshooting() },
  "loop-too-slow": {
    outcomes: [
      swing(140, 6, "loop"),
      foundWith("tracking", { worstDip: { at: seconds(5), depth: psiDifference(16), recovery: seconds(70) } }),
    ],
  },
  "leak-or-check-valve": {
    outcomes: [foundWith("leak-down"), foundWith("cycling", { startsByDraw: { none: 20, small: 2, large: 3 } })],
    record: fallingPressure(),
  },
  "demand-is-periodic": { outcomes: [swing(40, 5, "demand")], draw: everyTwoMinutes },
  "sleep-settings-hunting": {
    outcomes: [
      shortCycles,
      foundWith("cycling", {
        starts: 400,
        peakStartsPerHour: 50,
        startsByDraw: { none: 0, small: 380, large: 20 },
        cutIn: about(psi(50), 1),
        cutOut: about(psi(52), 1),
      }),
    ],
    pump: SHORT,
  },
  "loss-of-prime": { outcomes: [foundWith("pump-performance", { lossOfPrime: [span] })], record: withoutPressure() },
  "pump-turning-backwards-or-weak": {
    outcomes: [
      foundWith("pump-performance", { shutoffPressure: psi(50), overdraw: [span], peakFlow: gpm(16) }),
      foundWith("tracking", { meanError: psiDifference(-9) }),
    ],
    record: shortWith(16),
  },
  "undersized-pump-or-overdraw": {
    outcomes: [
      foundWith("pump-performance", { overdraw: [span], peakFlow: gpm(45) }),
      foundWith("tracking", { meanError: psiDifference(-7) }),
    ],
    record: shortWith(45),
  },
  healthy: {},
};

describe("each cause has a site where it comes first and one where it must not", () => {
  test.each(CAUSE_IDS)("%s comes first at its own site", (id) => {
    expect(firstOf(SITES[id])).toBe(id);
  });
  test.each(CAUSE_IDS)("%s does not come first at any other's", (id) => {
    const others = CAUSE_IDS.filter((other) => other !== id);
    expect(others.filter((other) => firstOf(SITES[other]) === id)).toEqual([]);
  });
  test.each(CAUSE_IDS.filter((id) => id !== "healthy"))("%s is not believed at a sound site", (id) => {
    expect(causesOf({ record: everySecond(8) }).find((c) => c.id === id)?.confidence).toBeLessThan(0.15);
  });
});

test("every cause is listed once, likeliest first, and the confidences sum to 1", () => {
  for (const site of Object.values(SITES)) {
    const causes = causesOf(site);
    expect(causes.map((c) => c.id).sort()).toEqual([...CAUSE_IDS].sort());
    expect(causes.reduce((sum, c) => sum + c.confidence, 0)).toBeCloseTo(1, 12);
    expect(causes.every((c, i) => i === 0 || c.confidence <= causes[i - 1].confidence)).toBe(true);
  }
});

test("two faults at once are both named before any third", () => {
  const both = causesOf({
    outcomes: [...(SITES["leak-or-check-valve"].outcomes ?? []), ...(SITES["sensor-in-turbulence"].outcomes ?? [])],
    record: fallingPressure(),
  });
  expect(
    both
      .slice(0, 2)
      .map((c) => c.id)
      .sort(),
  ).toEqual(["leak-or-check-valve", "sensor-in-turbulence"]);
  expect(both[0].besideFirst).toBeNull();
  expect(both[1].besideFirst).toBeGreaterThan(0.7);
  expect(both.slice(2).filter((c) => (c.besideFirst ?? 0) > 0.4)).toEqual([]);
});

test("a site with a pressure switch has no loop to blame for its oscillation", () => {
  const facts = { pump: "fixed-speed", cutIn: "40 psi", cutOut: "60 psi", pumpRatedFlow: "40 gpm", tankVolume: "80 gal" };
  const causes = diagnose(soundOutcomes(swing(5, 8, "unknown")), segmentsWith(STEADY), siteOf(facts), recordOf());
  const loops = causes.filter((c) => c.id === "loop-too-aggressive" || c.id === "loop-too-slow" || c.id === "sleep-settings-hunting");
  expect(loops.filter((c) => c.confidence > 0.1)).toEqual([]);
});

test("reasons name what the log showed, strongest first, with its numbers", () => {
  const leak = causesOf(SITES["leak-or-check-valve"])[0];
  expect(leak.for.map((r) => r.id)).toContain("leak-down");
  expect(leak.for.find((r) => r.id === "leak-down")?.numbers).toEqual({ flow: gpm(0.4) });
  expect(leak.for.every((r, i) => r.weight > 0 && (i === 0 || r.weight <= leak.for[i - 1].weight))).toBe(true);
  expect(leak.against.every((r) => r.weight < 0)).toBe(true);
});

describe("no cause is named where there is no pumped system to see", () => {
  const nothing = soundOutcomes().map((o) => untold(o.kind));
  test("a record without pressure", () => {
    const record = recordOf([channelOf("flow", "flow", [0, gpm(3), 0])]);
    expect(diagnose(nothing, segmentsWith(STEADY), NO_FACTS, record)).toEqual([]);
    expect(whyNoCause(segmentsWith(STEADY), NO_FACTS, record)?.id).toBe("no-pressure-channel");
  });
  test("a record without samples", () => {
    expect(diagnose(nothing, segmentsWith(null), NO_FACTS, recordOf([channelOf("pressure", "gaugePressure", [])], 0))).toEqual([]);
  });
  test("a pump that never reaches a service pressure, and no facts", () => {
    const bench = recordOf([channelOf("pressure", "gaugePressure", [0, 5000, -27000])]);
    expect(diagnose(nothing, segmentsWith(STEADY), NO_FACTS, bench)).toEqual([]);
  });
  test("noise that touches a service pressure now and then does not hold it", () => {
    const touching = (share: number) => Array.from({ length: 400 }, (_, i) => (i % 100 < share ? 75_000 : 5000));
    const bench = (share: number) => recordOf([channelOf("pressure", "gaugePressure", touching(share))]);
    expect(whyNoCause(segmentsWith(STEADY), NO_FACTS, bench(10))?.id).toBe("nothing-to-see");
    expect(whyNoCause(segmentsWith(STEADY), NO_FACTS, bench(60))).toBeNull();
  });
  test("pressure without any trace of a pump, and no facts", () => {
    expect(whyNoCause(segmentsWith(null), NO_FACTS, recordOf())?.id).toBe("no-pump-state");
  });
  test("a system named in the facts is looked at", () => {
    expect(diagnose(nothing, segmentsWith(null), siteOf(), recordOf())).toHaveLength(CAUSE_IDS.length);
  });
});

test("with nothing answered no fault is believed", () => {
  const causes = diagnose([], segmentsWith(pumpWith([])), NO_FACTS, recordOf(usualChannels(), 0.1));
  expect(causes.filter((c) => c.id !== "healthy" && c.confidence > 0.06)).toEqual([]);
  expect(causes.every((c) => c.for.length === 0 && c.against.length === 0)).toBe(true);
});

test("a detector that could not look is not taken for one that found nothing", () => {
  const confidence = (outcome: Outcome) => causesOf({ outcomes: [outcome] }).find((c) => c.id === "leak-or-check-valve")?.confidence ?? 0;
  expect(confidence(untold("leak-down"))).toBeGreaterThan(confidence(clearOf("leak-down")));
});
