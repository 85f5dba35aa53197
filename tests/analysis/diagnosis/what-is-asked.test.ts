import { describe, expect, test } from "vitest";
import { BACKGROUND } from "../../../analysis/diagnosis/background";
import { CAUSES } from "../../../analysis/diagnosis/causes";
import { HAND_CHECKS, OPENERS } from "../../../analysis/diagnosis/checks";
import { diagnose, whyNoCause } from "../../../analysis/diagnosis/diagnose";
import { rank } from "../../../analysis/diagnosis/rank";
import { expectedGain, mayReverse, separate } from "../../../analysis/diagnosis/separate";
import type { CauseId, CheckId } from "../../../shared/findings/cause";
import { OBSERVATION_IDS, type ObservationId } from "../../../shared/findings/observation";
import type { Channel, LogRecord } from "../../../shared/record/log-record";
import {
  channelOf,
  cyclesOf,
  NO_FACTS,
  observationsOf,
  psi,
  recordOf,
  segmentsWith,
  siteOf,
  soundOutcomes,
  usualChannels,
} from "../../builders/outcomes";

type Chances = Readonly<Record<string, number>>;

/** Bayes and Shannon once more: the check between two causes that brings most bits, of those with an answer that would reverse them. */
function chanceUnder(usual: Chances, weights: Chances | undefined): Chances {
  if (weights === undefined) return usual;
  const all = Object.keys(usual).reduce((sum, l) => sum + usual[l] * Math.exp(weights[l] ?? 0), 0);
  return Object.fromEntries(Object.keys(usual).map((l) => [l, 0.97 * ((usual[l] * Math.exp(weights[l] ?? 0)) / all) + 0.03 * usual[l]]));
}
const entropy = (p: number) => [p, 1 - p].reduce((sum, q) => sum - (q > 0 ? q * Math.log2(q) : 0), 0);
function gainOf(a: Chances, b: Chances, share: number): number {
  const after = Object.keys(a).reduce((sum, l) => {
    const both = share * a[l] + (1 - share) * b[l];
    return sum + both * entropy((share * a[l]) / both);
  }, 0);
  return entropy(share) - after;
}
const reverses = (a: Chances, b: Chances, share: number) => Object.keys(a).some((l) => share * a[l] > (1 - share) * b[l] !== share >= 0.5);

const SITES: readonly Partial<Record<ObservationId, string>>[] = [
  { "gas-constant": "collapsed", starts: "many" },
  { oscillation: "large", "oscillation-driver": "loop", "oscillation-period": "fast" },
  { "held-pressure": "below", dips: "deep-and-slow", overdraw: "present" },
  { starts: "very-many", runs: "mostly-short" },
  { "leak-down": "present", "starts-without-draw": "often" },
  { "sensor-stuck": "stuck" },
];
/** What is there already and need not be asked for. */
const KNOWN: readonly (readonly [CheckId, object, readonly Channel[]])[] = [
  ["ask-set-pressure", { setPressure: "52 psi" }, []],
  ["ask-tank-volume", { tankVolume: "20 gal" }, []],
  ["ask-precharge", { precharge: "35 psi" }, []],
  ["ask-pump-flow", { pumpRatedFlow: "40 gpm" }, []],
  ["measure-sensor-distance", { sensorToTank: "6 ft" }, []],
  ["log-flow", {}, [channelOf("flow", "flow", [1])]],
  ["log-speed", {}, [channelOf("speed", "fraction", [1])]],
  ["log-temperature", {}, [channelOf("temperature", "temperature", [290])]],
  ["log-second-pressure", {}, [channelOf("pressure", "gaugePressure", [1])]],
];
const [pressure] = usualChannels();

/** By hand: the best check for each of the first five, its gain, or null. */
function bestByHand(site: (typeof SITES)[number], known: ReadonlySet<CheckId>, depth: number) {
  const ranked = rank(observationsOf(site));
  return ranked.map(({ id, confidence }, i) => {
    if (i >= depth) return null;
    const rival = ranked[i === 0 ? 1 : 0];
    const share = confidence / (confidence + rival.confidence);
    const tables = [id, rival.id].map((one) => CAUSES.find((c) => c.id === one)!);
    const byHand = HAND_CHECKS.filter((c) => !known.has(c.id)).map((c) => {
      const [a, b] = tables.map((t) => chanceUnder(c.usual as Chances, c.weights[t.id as CauseId] as Chances));
      return { check: c.id, gain: gainOf(a, b, share), turns: reverses(a, b, share) };
    });
    const byAnswer = OPENERS.filter((o) => !known.has(o.id)).flatMap((o) =>
      o.opens
        .filter((open) => site[open] === undefined)
        .map((open) => {
          const [a, b] = tables.map((t) => chanceUnder(BACKGROUND[open], t.weights[open] as Chances));
          return { check: o.id, gain: gainOf(a, b, share), turns: reverses(a, b, share) };
        }),
    );
    const best = [...byHand, ...byAnswer]
      .filter((p) => p.turns)
      .reduce((most, p) => (p.gain > most.gain + 1e-9 ? p : most), { check: null as CheckId | null, gain: 0, turns: true });
    return best.check === null || best.gain < 0.02 ? null : { check: best.check, cause: id, rival: rival.id, gain: best.gain };
  });
}

describe.each(SITES.map((site, i) => [i, site] as const))("site %i: what would part the likeliest", (_, site) => {
  const observations = observationsOf(site);
  const alreadyKnown = (ids: readonly CheckId[]) => new Set<CheckId>(ids);
  const asked = (facts: object, channels: readonly Channel[], depth?: number, hours = 30) =>
    separate(rank(observations), observations, siteOf({ ...facts }), recordOf([pressure, ...channels], hours), depth);
  const told = (all: ReturnType<typeof asked>) =>
    all.map((one) =>
      one === null ? null : { check: one.check, cause: one.cause, rival: one.rival, gain: expect.closeTo(one.gainBits, 9) },
    );
  /** With no sensor distance the pipe is of no use either; a day was logged. */
  const always: CheckId[] = ["log-longer", "ask-pipe"];

  test("with nothing known, the check with the most bits by Shannon's measure, for the first five", () => {
    expect(bestByHand(site, alreadyKnown(always), 5)).toEqual(told(asked({}, [])));
    expect(bestByHand(site, alreadyKnown(always), 2)).toEqual(told(asked({}, [], 2)));
  });
  test("a shorter log may be made longer", () => {
    expect(bestByHand(site, alreadyKnown(["ask-pipe"]), 5)).toEqual(told(asked({}, [], 5, 23.9)));
    expect(bestByHand(site, alreadyKnown(always), 5)).toEqual(told(asked({}, [], 5, 24)));
  });
  test.each(KNOWN)("not %s where it is there already", (id, facts, channels) => {
    const pipe: CheckId[] = "sensorToTank" in facts ? ["log-longer"] : always;
    expect(bestByHand(site, alreadyKnown([...pipe, id]), 5)).toEqual(told(asked(facts, channels)));
  });
  test("the set pressure of a switch, and the pipe that is stated, are not asked for", () => {
    expect(bestByHand(site, alreadyKnown([...always, "ask-set-pressure"]), 5)).toEqual(told(asked({ pump: "fixed-speed" }, [])));
    expect(bestByHand(site, alreadyKnown([...always, "measure-sensor-distance"]), 5)).toEqual(
      told(asked({ sensorToTank: "6 ft", pipeInsideDiameter: "1.25 in" }, [])),
    );
  });
  test("each outcome points to the cause under which it is likelier", () => {
    for (const one of asked({}, []).filter((o) => o !== null)) {
      const tables = [one.cause, one.rival].map((id) => CAUSES.find((c) => c.id === id)!);
      for (const { shows, pointsTo } of one.outcomes) {
        const hand = HAND_CHECKS.find((c) => c.id === one.check);
        const [a, b] =
          shows.kind === "result"
            ? tables.map((t) => chanceUnder(hand!.usual as Chances, hand!.weights[t.id as CauseId] as Chances)[shows.result])
            : tables.map((t) => chanceUnder(BACKGROUND[shows.id], t.weights[shows.id] as Chances)[shows.level]);
        expect(pointsTo).toBe(a >= b ? one.cause : one.rival);
      }
    }
  });
});

test("gain and reversal at their edges", () => {
  expect(expectedGain({ yes: 1, no: 0 }, { yes: 1, no: 0 }, 0.3)).toBe(0);
  expect(expectedGain({ yes: 0.5, no: 0.5 }, { yes: 0, no: 1 }, 0.5)).toBeCloseTo(1 - 0.75 * entropy(1 / 3), 12);
  expect(mayReverse({ yes: 0.5, no: 0.5 }, { yes: 0.5, no: 0.5 }, 0.5)).toBe(true);
  expect(mayReverse({ yes: 0.5, no: 0.5 }, { yes: 0.5, no: 0.5 }, 0.51)).toBe(false);
});

describe("where no cause may be named", () => {
  const at = (record: LogRecord, facts: object = {}, pump: ReturnType<typeof cyclesOf> | null = cyclesOf(9, 60, 600)) =>
    whyNoCause(segmentsWith(pump), Object.keys(facts).length === 0 ? NO_FACTS : siteOf({ ...facts }), record);
  const logging = (values: readonly number[], hours = 24) => recordOf([channelOf("pressure", "gaugePressure", values)], hours);
  const sound = logging([psi(50), psi(50), psi(50)]);
  test("without a pressure", () => expect(at(recordOf([]))).toEqual({ id: "no-pressure-channel", about: "cause", detail: {} }));
  test("in under two minutes", () => {
    expect(at(logging([psi(50)], 119 / 3600))).toEqual({
      id: "record-too-short",
      about: "cause",
      detail: { durationS: expect.closeTo(119, 6) },
    });
    expect(at(logging([psi(50)], 120 / 3600))).toBeNull();
  });
  test("without a trace of a pump, unless the site's facts name a system", () => {
    expect(at(sound, {}, null)).toEqual({ id: "no-pump-state", about: "cause", detail: {} });
    for (const fact of [
      { pump: "fixed-speed" },
      { setPressure: "50 psi" },
      { cutIn: "40 psi" },
      { cutOut: "60 psi" },
      { restartPressure: "40 psi" },
      { tankVolume: "20 gal" },
      { precharge: "30 psi" },
      { pumpRatedFlow: "10 gpm" },
    ])
      expect(at(sound, fact, null), JSON.stringify(fact)).toBeNull();
    expect(at(sound, { motorPower: "2 hp" }, null)?.id).toBe("no-pump-state");
  });
  test("where what is logged is of another plant: a difference of pressure, or a pump that fills an open tank", () => {
    const across: Channel = { ...sound.channels[0], position: "difference" };
    expect(at(recordOf([across]), { setPressure: "50 psi" })?.detail.why).toBe("pressure-difference");
    expect(at(recordOf([...sound.channels, across]))).toBeNull();
    const inRuns = (sign: number) => {
      const level = Array.from({ length: 9 * 660 }, (_, t) => 2 + (sign * Math.min(t % 660, (660 - (t % 660)) / 10)) / 100);
      return recordOf([...logging(new Array(9 * 660).fill(psi(50))).channels, channelOf("level", "length", level)]);
    };
    expect(at(inRuns(1))?.detail.why).toBe("pump-fills-a-tank");
    expect(at(inRuns(-1)), "the tank that the pump draws from").toBeNull();
    expect(at(inRuns(1), { setPressure: "50 psi" })).toBeNull();
  });
  test("where the pressure never reaches a service pressure; one of several channels is enough", () => {
    const nothing = logging(new Array(50).fill(psi(2)));
    expect(at(nothing)).toMatchObject({ id: "nothing-to-see", about: "cause" });
    expect(at(nothing)?.detail.why).toBe("no-service-pressure");
    expect(at(nothing, { setPressure: "50 psi" })).toBeNull();
    expect(at(recordOf([...nothing.channels, ...sound.channels]))).toBeNull();
    expect(at(logging([Number.NaN, Number.NaN]))).toMatchObject({ id: "nothing-to-see" });
    expect(at(logging([Number.NaN, psi(50), Number.NaN]))).toBeNull();
  });
  test("then none is, and else each once", () => {
    expect(diagnose(soundOutcomes(), segmentsWith(null), NO_FACTS, sound)).toEqual([]);
    const all = diagnose(soundOutcomes(), segmentsWith(cyclesOf(9, 60, 600)), siteOf(), recordOf());
    expect(all.map((c) => c.id).sort()).toEqual(CAUSES.map((c) => c.id).sort());
    expect(all.slice(5).every((c) => c.toSeparate === null)).toBe(true);
  });
  test("all questions have a say", () => expect(OBSERVATION_IDS.length).toBe(Object.keys(BACKGROUND).length));
});
