import { describe, expect, test } from "vitest";
import { LOOKS } from "../../../analysis/diagnosis/observations";
import { seededRandom } from "../../../analysis/numerics/random";
import { seconds } from "../../../shared/units/quantity";
import { channelOf, gpm, psi, pumpWith, recordOf, segmentsWith, siteOf } from "../../builders/outcomes";

const LENGTH = 14_400; // s, at 1 s
const SET = 52; // psi, as in the builder's site

/** A pump with a witness that runs all the time but for the first and the last minute. */
function sightOf(pressure: readonly number[], flow: readonly number[] = []) {
  const channels = [
    channelOf(
      "pressure",
      "gaugePressure",
      pressure.map((p) => psi(p)),
    ),
    ...(flow.length === 0
      ? []
      : [
          channelOf(
            "flow",
            "flow",
            flow.map((q) => gpm(q)),
          ),
        ]),
  ];
  const pump = { ...pumpWith([[60, pressure.length - 120]]), observed: [{ from: seconds(0), to: seconds(pressure.length) }] };
  return { outcomes: [], segments: segmentsWith(pump), site: siteOf(), record: recordOf(channels, pressure.length / 3600) };
}

describe("how fast the loop mends an error", () => {
  /** Errors that come by chance and die away with time constant T: first-order autoregression, autocorrelation e^(-t/T) (Box and Jenkins, ch. 3). */
  function mending(T: number): number[] {
    const random = seededRandom(5);
    let error = 0;
    return Array.from({ length: LENGTH }, () => {
      error = error * Math.exp(-1 / T) + 0.3 * random.normal();
      return SET + error + 0.05 * random.normal();
    });
  }
  const look = LOOKS["loop-pace"];
  test("half of it is gone after T ln 2 past the first lag of 4 s", () => {
    const seen = look(sightOf(mending(20))); // 4 + 13.9 s
    expect(seen?.level).toBe("prompt");
    expect(Number(seen?.numbers.half)).toBeGreaterThanOrEqual(16);
    expect(Number(seen?.numbers.half)).toBeLessThanOrEqual(24);
    expect(look(sightOf(mending(60)))?.level).toBe("unhurried"); // 4 + 42 s
    expect(look(sightOf(mending(120)))?.level).toBe("slow"); // 4 + 83 s
  });
  test("an error that nobody would notice is prompt, and a reading that is off by a constant has none", () => {
    expect(look(sightOf(mending(120).map((p) => SET + 0.01 * (p - SET))))?.level).toBe("prompt");
    expect(look(sightOf(mending(20).map((p) => p - 8)))?.level).toBe("prompt");
  });
});

describe("how long the pressure takes to bend", () => {
  /** Draws that come by chance pull the pressure 6 psi down within some seconds (first order, 2 s), each for 60 s. */
  function stepping(): number[] {
    const random = seededRandom(9);
    let [aim, pressure, until] = [SET, SET, 0];
    return Array.from({ length: LENGTH }, (_, t) => {
      if (t >= until) [aim, until] = [aim === SET ? SET - 6 : SET, t + 60 + 200 * random.next()];
      pressure += (aim - pressure) * (1 - Math.exp(-1 / 2));
      return pressure + 0.02 * random.normal();
    });
  }
  const lagged = (values: readonly number[], tau: number): number[] => {
    let seen = values[0];
    return values.map((p) => (seen += (p - seen) * (1 - Math.exp(-1 / tau))));
  };
  test("within seconds at a sound sensor, long behind a first-order lag of 25 s", () => {
    expect(LOOKS.bends(sightOf(stepping()))?.level).toBe("sharp");
    expect(LOOKS.bends(sightOf(lagged(stepping(), 25)))?.level).toBe("rounded");
  });
  test("a pressure without bends leaves it open", () => {
    const random = seededRandom(2);
    expect(LOOKS.bends(sightOf(Array.from({ length: LENGTH }, () => SET + 0.05 * random.normal())))).toBeNull();
  });
});

describe("how much flows while the pressure is short", () => {
  const short = (t: number) => t % 1200 >= 600 && t % 1200 < 800;
  const pressure = Array.from({ length: LENGTH }, (_, t) => (short(t) ? 40 : SET));
  const look = (q: number) =>
    LOOKS["flow-when-short"](
      sightOf(
        pressure,
        Array.from({ length: LENGTH }, (_, t) => (short(t) ? q : 12)),
      ),
    )?.level;
  test("over the rating of 40 gpm, under it, or next to nothing", () => {
    expect([look(48), look(20), look(0.4)]).toEqual(["all", "some", "none"]);
  });
  test("not asked where the pressure was never short for long", () => {
    expect(LOOKS["flow-when-short"](sightOf(Array(LENGTH).fill(SET), Array(LENGTH).fill(12)))).toBeNull();
  });
});
