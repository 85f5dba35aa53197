import type { CauseId, CheckId, ResultId } from "../../shared/findings/cause";
import type { ObservationId } from "../../shared/findings/observation";

/** A check by hand: what it may show and how often at any site, and how much more or less often under a cause (as in the cause tables). */
export type HandCheck = {
  readonly id: CheckId;
  readonly usual: Readonly<Partial<Record<ResultId, number>>>;
  readonly weights: { readonly [C in CauseId]?: Readonly<Partial<Record<ResultId, number>>> };
};

/** A fact to ask for or a channel to log, and the open questions it would let one answer. */
export type Opener = { readonly id: CheckId; readonly opens: readonly ObservationId[] };

/**
 * Checks by hand, least trouble first: of two with the same gain the earlier is proposed. Judged from what each measures
 * (common practice, no source).
 */
export const HAND_CHECKS: readonly HandCheck[] = [
  {
    id: "measure-sensor-distance",
    usual: { "distance-short": 0.9, "distance-long": 0.1 },
    weights: { "sensor-far-from-tank": { "distance-short": -3, "distance-long": 3 }, healthy: { "distance-long": -1 } },
  },
  {
    id: "walk-the-consumers",
    usual: { "consumer-found": 0.2, "no-consumer": 0.8 },
    weights: {
      "demand-is-periodic": { "consumer-found": 2 },
      "undersized-pump-or-overdraw": { "consumer-found": 1 },
      healthy: { "consumer-found": -0.5 },
      "loop-too-aggressive": { "consumer-found": -0.7 },
    },
  },
  {
    id: "press-air-valve",
    usual: { "water-at-valve": 0.1, "only-air": 0.9 },
    weights: {
      "tank-waterlogged": { "water-at-valve": 2.5, "only-air": -1 },
      "tank-too-small": { "water-at-valve": -2 },
      "precharge-low": { "water-at-valve": -1 },
      "precharge-high": { "water-at-valve": -2 },
      healthy: { "water-at-valve": -2.5 },
    },
  },
  {
    id: "read-input-settings",
    usual: { "settings-match": 0.85, "settings-differ": 0.15 },
    weights: { "sensor-scaling-wrong": { "settings-match": -1.5, "settings-differ": 2.5 }, healthy: { "settings-differ": -2 } },
  },
  {
    id: "compare-second-gauge",
    usual: { "gauges-agree": 0.75, "gauges-differ": 0.15, "second-gauge-quicker": 0.1 },
    weights: {
      "sensor-scaling-wrong": { "gauges-agree": -2, "gauges-differ": 2.2 },
      "sensor-port-plugged": { "gauges-agree": -1, "second-gauge-quicker": 2.5 },
      "sensor-frozen-or-stuck": { "gauges-agree": -2, "gauges-differ": 1, "second-gauge-quicker": 1.5 },
      healthy: { "gauges-differ": -2, "second-gauge-quicker": -2 },
      "undersized-pump-or-overdraw": { "gauges-differ": -1 },
      "pump-turning-backwards-or-weak": { "gauges-differ": -1 },
    },
  },
  {
    id: "check-direction",
    usual: { "direction-right": 0.93, "direction-wrong": 0.07 },
    weights: {
      "pump-turning-backwards-or-weak": { "direction-wrong": 2 },
      healthy: { "direction-wrong": -2.5 },
      "undersized-pump-or-overdraw": { "direction-wrong": -2 },
    },
  },
  {
    id: "listen-for-air",
    usual: { "air-heard": 0.1, "no-air": 0.9 },
    weights: { "loss-of-prime": { "air-heard": 2.3, "no-air": -1 }, healthy: { "air-heard": -2 } },
  },
  {
    id: "feel-for-frost",
    usual: { "ice-found": 0.06, "no-ice": 0.94 },
    weights: { "sensor-frozen-or-stuck": { "ice-found": 2 }, healthy: { "ice-found": -2 }, "sensor-port-plugged": { "ice-found": -0.5 } },
  },
  {
    id: "shut-system-valve",
    usual: { "pressure-holds": 0.75, "pressure-falls": 0.25 },
    weights: {
      "leak-or-check-valve": { "pressure-falls": 0.9 },
      healthy: { "pressure-falls": -2 },
      "sleep-settings-hunting": { "pressure-falls": -1.5 },
      "tank-too-small": { "pressure-falls": -1.5 },
      "demand-is-periodic": { "pressure-falls": -1 },
    },
  },
  {
    id: "shut-in-test",
    usual: { "head-full": 0.85, "head-weak": 0.15 },
    weights: {
      "pump-turning-backwards-or-weak": { "head-full": -2, "head-weak": 2.3 },
      "undersized-pump-or-overdraw": { "head-weak": -1.5 },
      "loss-of-prime": { "head-weak": 1 },
      healthy: { "head-weak": -2.5 },
    },
  },
  {
    id: "lengthen-sleep-delay",
    usual: { "starts-fewer": 0.3, "starts-same": 0.7 },
    weights: {
      "sleep-settings-hunting": { "starts-fewer": 2, "starts-same": -1 },
      "leak-or-check-valve": { "starts-fewer": -0.7 },
      healthy: { "starts-fewer": -1 },
    },
  },
  {
    id: "halve-loop-gain",
    usual: { "swing-smaller": 0.4, "swing-same": 0.6 },
    weights: {
      "loop-too-aggressive": { "swing-smaller": 2, "swing-same": -1 },
      "sensor-far-from-tank": { "swing-smaller": 0.5 },
      "demand-is-periodic": { "swing-smaller": -2 },
      "loop-too-slow": { "swing-smaller": -1.5 },
      "sensor-in-turbulence": { "swing-smaller": -1 },
      healthy: { "swing-smaller": -1 },
    },
  },
  {
    id: "double-loop-gain",
    usual: { "dips-smaller": 0.4, "dips-same": 0.6 },
    weights: {
      "loop-too-slow": { "dips-smaller": 2, "dips-same": -1 },
      "undersized-pump-or-overdraw": { "dips-smaller": -2 },
      "pump-turning-backwards-or-weak": { "dips-smaller": -2 },
      "loop-too-aggressive": { "dips-smaller": -1 },
    },
  },
  {
    id: "open-sensor-port",
    usual: { "port-clear": 0.88, "port-choked": 0.12 },
    weights: { "sensor-port-plugged": { "port-clear": -2, "port-choked": 2.3 }, healthy: { "port-choked": -2 } },
  },
  {
    id: "read-precharge",
    usual: { "charge-low": 0.15, "charge-right": 0.72, "charge-high": 0.13 },
    weights: {
      "precharge-low": { "charge-low": 2.2, "charge-right": -2, "charge-high": -2.5 },
      "precharge-high": { "charge-high": 2.2, "charge-right": -2, "charge-low": -2.5 },
      "tank-waterlogged": { "charge-low": 1.5, "charge-right": -0.5 },
      "tank-too-small": { "charge-low": -1, "charge-high": -1 },
      "loop-too-aggressive": { "charge-low": -0.5 },
      "sleep-settings-hunting": { "charge-low": -0.5 },
      healthy: { "charge-low": -2, "charge-high": -2 },
    },
  },
];

/** Facts and channels, least trouble first. */
export const OPENERS: readonly Opener[] = [
  {
    id: "ask-set-pressure",
    opens: ["precharge-by-facts", "sensor-scale", "held-pressure", "empties-at", "dips", "usual-pressure", "low-times"],
  },
  { id: "ask-tank-volume", opens: ["tank-by-facts", "gas-constant", "cycle-against-tank"] },
  { id: "ask-precharge", opens: ["precharge-by-facts", "gas-constant", "cycle-against-tank"] },
  { id: "ask-pump-flow", opens: ["tank-by-facts", "gas-constant-by-practice", "flow-when-short", "usual-fall"] },
  { id: "ask-pipe", opens: ["surge-period"] },
  { id: "log-longer", opens: ["starts", "runs", "drift", "leak-down"] },
  {
    id: "log-faster",
    opens: [
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
  },
  {
    id: "log-flow",
    opens: [
      "oscillation-driver",
      "gas-constant",
      "empties-at",
      "starts-without-draw",
      "starts-in-small-draws",
      "noise-with-flow",
      "drift",
      "droop",
      "leak-down",
      "leak-side",
      "draw-rhythm",
      "sensor-lag",
      "flow-when-short",
    ],
  },
  {
    id: "log-speed",
    opens: ["oscillation-driver", "overdraw", "shutoff", "prime", "runs", "starts", "start-gaps", "loop-pace", "answer-to-draw"],
  },
  { id: "log-second-pressure", opens: ["sensor-distance", "sensor-lag", "sensor-scale"] },
  { id: "log-temperature", opens: ["sensor-stuck"] },
];
