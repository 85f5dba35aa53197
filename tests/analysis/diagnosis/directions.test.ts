import { describe, expect, test } from "vitest";
import { CAUSES } from "../../../analysis/diagnosis/causes";
import { HAND_CHECKS, OPENERS } from "../../../analysis/diagnosis/checks";
import { chances, logRatio } from "../../../analysis/diagnosis/likelihood";
import type { CauseId, CheckId } from "../../../shared/findings/cause";
import type { Level, ObservationId } from "../../../shared/findings/observation";

/**
 * What speaks for (+) and against (-) a cause by what it does to water and pressure, written down from the trade and not from the program's tables: how much an
 * answer weighs is counted, which way it points is physics. Common practice, no source, where nothing is said.
 */
const DIRECTIONS: Readonly<Record<Exclude<CauseId, "healthy">, readonly string[]>> = {
  // Little water between start and stop (V = K (1/p1 - 1/p2), K = p0 Vt): short runs, many starts, steep falls; the charge itself is right.
  "tank-too-small": [
    "+ tank-by-facts: small tiny; starts: many very-many; runs: some-short mostly-short; gas-constant-by-practice: tiny small; dips: deep; usual-fall: quick; rise-pace: sudden; start-gaps: some-close close; switching-band: wide; overshoot: large",
    "- tank-by-facts: ample; starts: few; runs: long; gas-constant-by-practice: enough; dips: shallow; gas-constant: collapsed reduced; empties-at: far-below near-set; rise-pace: prompt late slow; start-gaps: apart; overshoot: little; fall-breaks: near-set",
  ],
  // Boyle: a lower charge leaves less gas at work, so less water and a knee far below.
  "precharge-low": [
    "+ gas-constant: reduced lessened collapsed; empties-at: far-below; precharge-by-facts: low; cycle-against-tank: shorter; starts: many very-many; runs: some-short mostly-short; gas-constant-by-practice: tiny small; dips: deep; rise-pace: sudden; start-gaps: some-close close; usual-fall: quick",
    "- gas-constant: as-expected raised; empties-at: in-band near-set; precharge-by-facts: in-band high; cycle-against-tank: as-allowed; starts: few; runs: long; gas-constant-by-practice: enough; rise-pace: prompt late slow; start-gaps: apart; fall-breaks: near-set",
  ],
  // The tank is empty before the pump starts: the knee stands near the set pressure and pressure drops through.
  // Below its charge the tank gives nothing: what falls there shows next to no gas, through a wide band.
  "precharge-high": [
    "+ empties-at: near-set; fall-breaks: near-set; precharge-by-facts: high; dips: deep; starts: many very-many; runs: some-short mostly-short; usual-fall: sudden quick; gas-constant: raised; rise-pace: sudden; start-gaps: some-close close; gas-constant: collapsed; gas-constant-by-practice: tiny small; switching-band: wide",
    "- empties-at: far-below in-band; fall-breaks: nowhere below; precharge-by-facts: low in-band; dips: shallow; starts: few; runs: long; usual-fall: usual; gas-constant: as-expected; rise-pace: prompt late slow; start-gaps: apart; gas-constant-by-practice: enough; switching-band: usual",
  ],
  // Next to no gas, so next to no give, and no knee.
  "tank-waterlogged": [
    "+ gas-constant: collapsed; gas-constant-by-practice: tiny; cycle-against-tank: shorter; runs: mostly-short some-short; starts: very-many many; dips: deep; usual-fall: sudden quick; rise-pace: sudden; start-gaps: some-close close; overshoot: large; gas-constant: reduced; switching-band: wide; empties-at: far-below",
    "- gas-constant: as-expected raised; gas-constant-by-practice: enough; cycle-against-tank: as-allowed; runs: long; starts: few; empties-at: in-band near-set; dips: shallow; usual-fall: usual; rise-pace: prompt late slow; start-gaps: apart; overshoot: little; switching-band: usual; fall-breaks: near-set below",
  ],
  // The water between swings as a column on the tank's gas; friction between is seen as droop. With a switch the surge of a start trips it again and again.
  "sensor-far-from-tank": [
    "+ sensor-distance: beyond far; oscillation: small large; oscillation-driver: loop; surge-period: agrees; oscillation-period: fast; droop: steep; rise-pace: sudden; roughness: rougher; overshoot: large; runs: mostly-short; starts: very-many; start-gaps: close",
    "- sensor-distance: near; oscillation: none; oscillation-driver: demand; surge-period: differs; oscillation-period: slow; rise-pace: late slow; roughness: alike; rise-pace: prompt",
  ],
  // Pressure fluctuations of turbulence go with the square of speed.
  "sensor-in-turbulence": [
    "+ noise-with-flow: grows; noise: noisy; roughness: rougher",
    "- noise-with-flow: steady; noise: quiet; roughness: alike; oscillation: large",
  ],
  // A choked port is a first-order lag: it reads late and smooths what is fast.
  // It bends softly; it sees a draw late and small, as if the tank had more gas; and a loop that trusts it winds up meanwhile.
  "sensor-port-plugged": [
    "+ sensor-lag: slow; sensor-stuck: stuck; rise-pace: late; bends: soft rounded; gas-constant: raised; overshoot: large; rise-pace: slow",
    "- sensor-lag: prompt; noise-with-flow: grows; oscillation-period: fast; sensor-stuck: frozen; rise-pace: sudden prompt; bends: sharp; gas-constant: collapsed reduced; overshoot: little",
  ],
  // What stands still short of the set pressure looks like an error that nobody mends.
  "sensor-frozen-or-stuck": [
    "+ sensor-stuck: stuck frozen; jump-from-still: seen; loop-pace: slow; answer-to-draw: late",
    "- sensor-stuck: no; jump-from-still: none; loop-pace: prompt",
  ],
  // Everything reads by one factor: held elsewhere than set, or pinned at an end of the range.
  // What is read off by a factor is never nothing.
  // The loop holds what it reads, so that the pressure never comes to where it should be, however hard the pump works.
  "sensor-scaling-wrong": [
    "+ levels-walk: walk; sensor-scale: off; held-pressure: below above; sensor-pinned: yes; usual-pressure: below above; low-times: mostly; sunk-pressure: low; answer-to-draw: late at-its-end; overshoot: large",
    "- levels-walk: stay; at-the-top: runs-on; sensor-scale: as-expected; held-pressure: at-set; usual-pressure: in-band; sunk-pressure: held gone nought; answer-to-draw: keeps-up; low-times: brief",
  ],
  // A hot loop swings by itself at a few times its dead time, and overshoots.
  // With little gas the same swing is the tank's.
  "loop-too-aggressive": [
    "+ oscillation: small large; oscillation-driver: loop; oscillation-period: fast; overshoot: large; roughness: rougher; rise-pace: sudden",
    "- swing-in-runs: from-stop-to-stop; oscillation: none; oscillation-driver: demand; oscillation-period: slow; overshoot: little; dips: deep-and-slow; pump-kind: switch; sensor-distance: far; roughness: alike; rise-pace: late slow; gas-constant: collapsed reduced; loop-pace: slow; bends: rounded",
  ],
  // A loop turned down too far comes late and swings slowly (damping 0.5 sqrt(k' Kc Ti)), with speed to spare.
  // A pump at full speed, or without water, cannot be late; an integrator far behind ramps down late too.
  "loop-too-slow": [
    "+ dips: deep-and-slow; drift: over; oscillation-period: slow; answer-to-draw: late; sunk-pressure: low; rise-pace: late slow; low-times: minutes; overshoot: large; loop-pace: slow; flow-when-short: some; runs: long",
    "- dips: shallow; drift: within; oscillation-period: fast; answer-to-draw: keeps-up at-its-end; loop-pace: prompt; pump-kind: switch; held-pressure: above; oscillation-driver: demand; rise-pace: sudden; low-times: brief mostly; start-gaps: close; flow-when-short: none all; overdraw: present; sunk-pressure: held gone; runs: some-short mostly-short; start-gaps: some-close; sunk-pressure: nought",
  ],
  // Water goes where nobody draws: starts at rest, no quiet, an even rhythm; a small loss makes no dip.
  "leak-or-check-valve": [
    "+ leak-down: present; starts-without-draw: often; night-flow: present; starts: many very-many; quiet-times: none; start-rhythm: regular; dips: shallow",
    "- leak-down: none passing; starts-without-draw: rare; night-flow: none; quiet-times: some; start-rhythm: irregular; dips: deep deep-and-slow",
  ],
  "demand-is-periodic": [
    "+ oscillation-driver: demand; draw-rhythm: regular; oscillation: small large; oscillation-period: slow; start-rhythm: regular",
    "- oscillation-driver: loop; draw-rhythm: irregular; oscillation: none; oscillation-period: fast; start-rhythm: irregular",
  ],
  // A drive that sleeps too soon wakes at once again: short runs and many starts with a sound tank, a narrow band between sleep and wake.
  "sleep-settings-hunting": [
    "+ runs: some-short mostly-short; starts: many very-many; switching-band: narrow; start-rhythm: regular; dips: shallow; start-gaps: close; oscillation: small large; swing-in-runs: from-stop-to-stop",
    "- swing-in-runs: within; runs: long never-stops; starts: few; switching-band: usual wide; gas-constant: collapsed reduced; gas-constant-by-practice: tiny small; tank-by-facts: small tiny; empties-at: far-below near-set; pump-kind: switch; start-rhythm: irregular; dips: deep deep-and-slow; oscillation-period: slow fast; starts-in-small-draws: rare; oscillation: none; start-gaps: apart; overshoot: large",
  ],
  // A pump full of air gives neither pressure nor flow.
  // The integrator winds up meanwhile, and is over when the water is back.
  "loss-of-prime": [
    "+ prime: lost; held-pressure: below; shutoff: weak; flow-when-short: none; sunk-pressure: nought gone low; dips: deep-and-slow; low-times: long minutes; rise-pace: slow; answer-to-draw: at-its-end; overdraw: present; loop-pace: slow; overshoot: large",
    "- prime: held; held-pressure: at-set above; shutoff: full; flow-when-short: all; sunk-pressure: held; dips: shallow; answer-to-draw: keeps-up; low-times: brief; flow-when-short: some; overshoot: little",
  ],
  // Less head at every flow: weak without flow, short of the set pressure, at its end below its rating.
  "pump-turning-backwards-or-weak": [
    "+ at-the-top: runs-on; shutoff: weak; sensor-scale: off; held-pressure: below; droop: steep; overdraw: present; flow-when-short: none; loop-pace: slow; runs: never-stops; answer-to-draw: at-its-end; sunk-pressure: low; dips: deep-and-slow; low-times: long mostly; usual-pressure: below; rise-pace: slow; sunk-pressure: gone",
    "- at-the-top: turns; sunk-pressure: nought; shutoff: full; held-pressure: at-set above; droop: little; overdraw: none; flow-when-short: all; runs: mostly-short some-short long; answer-to-draw: keeps-up late; sunk-pressure: held; dips: shallow; overshoot: large; low-times: brief; usual-pressure: in-band above; rise-pace: sudden prompt; start-gaps: close; loop-pace: prompt; overshoot: some",
  ],
  // A sound pump at the end of its curve: full flow, pressure below the band, but never none: outlets give as the root of pressure.
  "undersized-pump-or-overdraw": [
    "+ overdraw: present; flow-when-short: all; held-pressure: below; droop: steep; answer-to-draw: at-its-end; sunk-pressure: low; dips: deep-and-slow; low-times: long; rise-pace: slow; overshoot: large; loop-pace: slow; sunk-pressure: gone; rise-pace: late",
    "- overdraw: none; flow-when-short: some none; held-pressure: at-set above; droop: little; answer-to-draw: keeps-up late; sunk-pressure: held; dips: shallow; low-times: brief; loop-pace: prompt; rise-pace: prompt; overshoot: little; sunk-pressure: nought",
  ],
};

/** "+ a: x y; b: z" as rows of sign, name, value. */
const rowsOf = (lines: readonly string[]) =>
  lines.flatMap((line) =>
    line
      .slice(2)
      .split("; ")
      .flatMap((part) => {
        const [id, levels] = part.split(": ");
        return levels.split(" ").map((level) => [line[0] === "+" ? 1 : -1, id, level] as const);
      }),
  );

describe.each(Object.entries(DIRECTIONS))("%s", (id, lines) => {
  const cause = CAUSES.find((c) => c.id === id)!;
  test.each(rowsOf(lines))("%i: %s is %s", (sign, observation, level) => {
    expect(Math.sign(logRatio(cause, observation as ObservationId, level as Level))).toBe(sign);
  });
});
test("what a weight says is what comes of it, so that a table can be read: the sum over all answers turns none round", () => {
  const turned: string[] = [];
  const see = (name: string, weights: object | undefined, ratioOf: (level: string) => number) => {
    // under a fifth a weight says nothing either way, and neither does a chance that is changed by a twentieth
    for (const [level, weight] of Object.entries(weights ?? {}))
      if (Math.abs(weight) > 0.2 && Math.abs(ratioOf(level)) > 0.05 && Math.sign(ratioOf(level)) !== Math.sign(weight))
        turned.push(`${name} ${level}`);
  };
  for (const cause of CAUSES)
    for (const [id, weights] of Object.entries(cause.weights))
      see(`${cause.id}, ${id}:`, weights, (level) => logRatio(cause, id as ObservationId, level as Level));
  for (const { id, usual, weights } of HAND_CHECKS)
    for (const [cause, own] of Object.entries(weights)) {
      const all = usual as Readonly<Record<string, number>>;
      const under = chances(all, own as Readonly<Record<string, number>>);
      see(`${id}, ${cause}:`, own, (level) => Math.log(under[level] / all[level]));
    }
  expect(turned).toEqual([]);
});
test("a sound site has no table of its own, and is commoner than any one fault", () => {
  const healthy = CAUSES.find((c) => c.id === "healthy")!;
  expect(healthy.weights).toEqual({});
  for (const cause of CAUSES.filter((c) => c !== healthy)) expect(healthy.prior).toBeGreaterThan(cause.prior);
});

/** What a check by hand shows where a cause holds (+) and where it does not (-). */
const BY_HAND: Readonly<Partial<Record<CheckId, readonly string[]>>> = {
  "measure-sensor-distance": ["+ sensor-far-from-tank: distance-long", "- sensor-far-from-tank: distance-short; healthy: distance-long"],
  "walk-the-consumers": [
    "+ demand-is-periodic: consumer-found; undersized-pump-or-overdraw: consumer-found",
    "- healthy: consumer-found; loop-too-aggressive: consumer-found",
  ],
  "press-air-valve": [
    "+ tank-waterlogged: water-at-valve",
    "- tank-waterlogged: only-air; tank-too-small: water-at-valve; precharge-low: water-at-valve; precharge-high: water-at-valve; healthy: water-at-valve",
  ],
  "read-input-settings": ["+ sensor-scaling-wrong: settings-differ", "- sensor-scaling-wrong: settings-match; healthy: settings-differ"],
  "compare-second-gauge": [
    "+ sensor-scaling-wrong: gauges-differ; sensor-port-plugged: second-gauge-quicker; sensor-frozen-or-stuck: gauges-differ second-gauge-quicker",
    "- sensor-scaling-wrong: gauges-agree; sensor-port-plugged: gauges-agree; sensor-frozen-or-stuck: gauges-agree; healthy: gauges-differ second-gauge-quicker; undersized-pump-or-overdraw: gauges-differ; pump-turning-backwards-or-weak: gauges-differ",
  ],
  "check-direction": [
    "+ pump-turning-backwards-or-weak: direction-wrong",
    "- pump-turning-backwards-or-weak: direction-right; healthy: direction-wrong; undersized-pump-or-overdraw: direction-wrong",
  ],
  "listen-for-air": ["+ loss-of-prime: air-heard", "- loss-of-prime: no-air; healthy: air-heard"],
  "feel-for-frost": [
    "+ sensor-frozen-or-stuck: ice-found",
    "- sensor-frozen-or-stuck: no-ice; healthy: ice-found; sensor-port-plugged: ice-found",
  ],
  "shut-system-valve": [
    "+ leak-or-check-valve: pressure-falls",
    "- healthy: pressure-falls; sleep-settings-hunting: pressure-falls; tank-too-small: pressure-falls; demand-is-periodic: pressure-falls",
  ],
  "shut-in-test": [
    "+ pump-turning-backwards-or-weak: head-weak; loss-of-prime: head-weak",
    "- pump-turning-backwards-or-weak: head-full; undersized-pump-or-overdraw: head-weak; healthy: head-weak",
  ],
  "lengthen-sleep-delay": [
    "+ sleep-settings-hunting: starts-fewer",
    "- sleep-settings-hunting: starts-same; leak-or-check-valve: starts-fewer; healthy: starts-fewer",
  ],
  "halve-loop-gain": [
    "+ loop-too-aggressive: swing-smaller; sensor-far-from-tank: swing-smaller",
    "- loop-too-aggressive: swing-same; demand-is-periodic: swing-smaller; loop-too-slow: swing-smaller; sensor-in-turbulence: swing-smaller; healthy: swing-smaller",
  ],
  "double-loop-gain": [
    "+ loop-too-slow: dips-smaller",
    "- loop-too-slow: dips-same; undersized-pump-or-overdraw: dips-smaller; pump-turning-backwards-or-weak: dips-smaller; loop-too-aggressive: dips-smaller",
  ],
  "open-sensor-port": ["+ sensor-port-plugged: port-choked", "- sensor-port-plugged: port-clear; healthy: port-choked"],
  "read-precharge": [
    "+ precharge-low: charge-low; precharge-high: charge-high; tank-waterlogged: charge-low",
    "- precharge-low: charge-right charge-high; precharge-high: charge-right charge-low; tank-waterlogged: charge-right; tank-too-small: charge-low charge-high; healthy: charge-low charge-high; loop-too-aggressive: charge-low; sleep-settings-hunting: charge-low",
  ],
};
describe.each(HAND_CHECKS.map((check) => [check.id, check] as const))("%s", (id, check) => {
  test("is in the list", () => expect(Object.keys(BY_HAND)).toContain(id));
  test.each(rowsOf(BY_HAND[id] ?? []))("%i: %s, %s", (sign, cause, result) => {
    const usual = check.usual as Readonly<Record<string, number>>;
    const under = chances(usual, check.weights[cause as CauseId] as Readonly<Record<string, number>>);
    expect(Math.sign(Math.round(1e9 * Math.log(under[result] / usual[result])))).toBe(sign);
  });
});

/** What cannot be asked of a log without a fact or a channel: the formula of the question holds it. */
const NEEDS: Readonly<Partial<Record<CheckId, readonly ObservationId[]>>> = {
  "ask-set-pressure": ["precharge-by-facts", "sensor-scale", "held-pressure", "empties-at", "dips", "usual-pressure", "low-times"],
  "ask-tank-volume": ["tank-by-facts", "gas-constant", "cycle-against-tank"],
  "ask-precharge": ["precharge-by-facts", "gas-constant", "cycle-against-tank"],
  "ask-pump-flow": ["tank-by-facts", "gas-constant-by-practice", "flow-when-short", "usual-fall"],
  "ask-pipe": ["surge-period"],
  "log-longer": ["starts", "runs", "drift", "leak-down"],
  "log-faster": [
    "oscillation",
    "oscillation-period",
    "oscillation-driver",
    "noise",
    "sensor-lag",
    "bends",
    "loop-pace",
    "rise-pace",
    "jump-from-still",
  ],
  "log-flow": [
    "flow-when-short",
    "gas-constant",
    "empties-at",
    "starts-without-draw",
    "starts-in-small-draws",
    "noise-with-flow",
    "droop",
    "leak-down",
    "leak-side",
    "draw-rhythm",
    "sensor-lag",
    "oscillation-driver",
    "drift",
  ],
  "log-speed": ["oscillation-driver", "overdraw", "shutoff", "prime", "runs", "starts", "start-gaps", "loop-pace", "answer-to-draw"],
  "log-second-pressure": ["sensor-distance", "sensor-lag", "sensor-scale"],
  "log-temperature": ["sensor-stuck"],
};
test.each(OPENERS.map((o) => [o.id, o] as const))("%s opens the questions that need it", (id, opener) => {
  expect([...opener.opens].sort()).toEqual([...(NEEDS[id] ?? [])].sort());
});
