import { describe, expect, test } from "vitest";
import { LOOKS } from "../../../../analysis/diagnosis/observations";
import type { Outcome } from "../../../../shared/findings/finding";
import { seconds } from "../../../../shared/units/quantity";
import { SWITCHED } from "../../../builders/look-at";
import { foundWith, swing } from "../../../builders/outcomes";
import { noiseOf, seededRandom } from "../../../builders/signals";
import { type Worked, workedHours } from "../../../builders/worked-hours";

/**
 * The pressure jumps by 6 psi every 200 s, up and down in turn, behind a first-order lag: 1 - e^(-t/tau) after each jump. The bend at a jump seen over a time t
 * is 6 (1 - e^(-t/tau)), of that over 2t the share 1 / (1 + e^(-t/tau)): seven tenths from t = tau ln(7/3) = 0.847 tau on.
 */
const lagged =
  (tau: number, jumps = 35, size = 6) =>
  (_: number, t: number) => {
    const count = Math.min(jumps, Math.floor(t / 200));
    let above = 0; // of the jumps so far, each has come so near its end
    for (let i = 1; i <= count; i++) above += (i % 2 === 1 ? size : -size) * (1 - Math.exp(-(t - 200 * i) / tau));
    return 52 + above;
  };
/** With the pump running a valve moves the pressure at once; at rest the tank makes a slope of it. */
const ALL_THROUGH = [[0, 7200]] as const;
const HALVES = Array.from({ length: 12 }, (_, i) => [i * 600 + 300, 300] as const);
const look = (worked: Partial<Worked> & { readonly outcomes?: readonly Outcome[] }) => {
  const { outcomes = [], ...rest } = worked;
  return LOOKS.bends({ ...workedHours({ pressure: lagged(4), pumpRuns: ALL_THROUGH, ...rest }), outcomes });
};
const timeAt = (tau: number) => look({ pressure: lagged(tau) })?.numbers.time;

describe("bends behind a lag of tau (looked at over 1, 2, 4 ... 32 s)", () => {
  test("are there from the first time over 0.847 tau on", () => {
    expect([1.1, 1.3, 2.3, 2.5, 4.6, 4.8].map(timeAt)).toEqual([1, 2, 2, 4, 4, 8]);
    expect([9.3, 9.6, 18.7, 19.1, 37.5].map(timeAt)).toEqual([8, 16, 16, 32, 32]);
  });
  test("sharp under 7 s, soft under 14 s, rounded beyond; of one that takes longer than all no bend is told", () => {
    expect([4.6, 4.8, 9.3, 9.6].map((tau) => look({ pressure: lagged(tau) })?.level)).toEqual(["sharp", "soft", "soft", "rounded"]);
    expect(look({ pressure: lagged(4) })?.numbers).toEqual({ time: 4, bends: 35 });
    expect(look({ pressure: lagged(45) })).toEqual({ level: "rounded", numbers: { time: 32 } });
  });
  test("by five bends at least", () => {
    expect(look({ pressure: lagged(4, 5) })?.numbers).toEqual({ time: 4, bends: 5 });
    expect(look({ pressure: lagged(4, 4) })).toBeNull();
  });
  test("by those that stand out of the noise, twelve spreads of it; the spread of a bend of noise is root six of it", () => {
    const noise = noiseOf(7200, seededRandom(8));
    const loud = (sigma: number) => look({ pressure: (k, t) => lagged(0.5)(k, t) + sigma * noise[t] });
    expect(loud(0.25)?.level).toBe("sharp"); // 24 spreads
    expect(loud(1.5)).toBeNull(); // 4
  });
  test("by the sharper fifth: seven jumps at once in thirty-five, and the others late", () => {
    const mixed = (k: number, t: number) => (Math.floor(t / 200) % 3 === 1 ? lagged(1)(k, t) : lagged(12)(k, t));
    expect(Number(look({ pressure: mixed })?.numbers.time)).toBeLessThan(8);
  });
});

test("not asked of a switch, without a set pressure or a pump's state, nor at over 5 s a sample", () => {
  expect(look({ facts: SWITCHED })).toBeNull();
  expect(look({ facts: { setPressure: undefined } })).toBeNull();
  expect(look({ pumpKnown: false })).toBeNull();
  expect(look({ step: 5 })?.numbers.time).toBe(5);
  expect(look({ step: 6 })).toBeNull();
  expect(look({ step: 2 })?.numbers.time).toBe(4);
});
test("nor where the pressure swings for over a tenth of the running time, 3600 s: then the waves make the bends", () => {
  const swinging = (length: number, by: "loop" | "cycling" = "loop") => {
    const outcome = swing(30, 5, by);
    if (outcome.state !== "found" || outcome.finding.kind !== "oscillation") throw new Error("a swing");
    const [episode] = outcome.finding.episodes;
    const twice = [0, 3600].map((from) => ({ ...episode, from: seconds(from), to: seconds(from + length / 2) }));
    return look({ outcomes: [foundWith("oscillation", { episodes: twice })], pumpRuns: HALVES });
  };
  expect(swinging(358)?.level).toBe("sharp");
  expect(swinging(362)).toBeNull();
  expect(swinging(3600, "cycling")?.level).toBe("sharp");
});

/**
 * A tank with much give: at rest the pressure falls in a straight line from where a draw begins, and the pump brings it back as slowly. A bend between straight
 * lines shows a half at half the time, at any time; behind a lag it shows less (integral of 1 - e^(-t/tau)).
 */
const slopes = (tau: number) => (k: number) => {
  const behind = (s: number) => (s <= 0 ? 0 : s - tau * (1 - Math.exp(-s / tau)));
  return 52 - 0.03 * (behind(k - 60) - 2 * behind(k - 300) + behind(k - 540));
};
test("straight slopes of a soft tank are no lag, however long a bend of them takes to stand out; rounded ones are", () => {
  expect(look({ pressure: slopes(0.01), pumpRuns: HALVES })).toBeNull();
  expect(look({ pressure: slopes(12), pumpRuns: HALVES })?.level).toBe("rounded");
});
