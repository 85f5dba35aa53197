import type { Advice, Amount, AmountId } from "../../shared/findings/advice";
import type { Change } from "../../shared/findings/what-if";
import { PRECHARGE_BELOW_SET } from "../diagnosis/practice";

type Tries = readonly (readonly Change[])[];
const NONE: Tries = [];

/**
 * What a step would change in the model: first at the amount that is trusted, then what to try where that one empties the tank. Empty where
 * the step changes nothing that the model knows, or its amount is not known.
 * @param sleepDelay as it is, s
 */
export function changesOfStep(advice: Advice, sleepDelay: number): Tries {
  const amount = (id: AmountId) => advice.amounts.find((a) => a.id === id) ?? null;
  switch (advice.id) {
    case "raise-precharge":
    case "lower-precharge":
      return charges(advice, amount("precharge-by-practice") ?? amount("precharge-by-switch-practice"));
    case "larger-tank":
    case "replace-tank":
      return volume(advice);
    case "move-sensor":
      return [[{ id: "sensor-distance", to: amount("sensor-distance-by-practice")?.high ?? 0 }]];
    case "lower-loop-gain":
      return ratio(amount("gain-ratio-by-margin"));
    case "raise-loop-gain":
      return ratio(amount("gain-raise-by-practice"));
    case "lengthen-sleep-delay":
      return lengthened(amount("sleep-delay-by-run-time"), amount("sleep-delay-by-practice"), sleepDelay);
    case "find-leak":
    case "check-check-valve":
      return [[{ id: "leak", to: 0 }]];
    default:
      return NONE;
  }
}

/**
 * The end of the band that is trusted first, its middle where none is; then down to the lower end of practice, a quarter of the band at a
 * time. Where drift leaves only the higher setting that band still reaches down as far; with a pressure switch there is one charge.
 */
function charges({ trust }: Advice, amount: Amount | null): Tries {
  if (amount === null) return NONE;
  const { high } = amount;
  const reach = amount.id === "precharge-by-practice" ? PRECHARGE_BELOW_SET.high - PRECHARGE_BELOW_SET.low : 0;
  const low = high - reach;
  const isLow = trust?.id === "precharge-lower-setting" || trust?.id === "precharge-drift-unknown";
  const first = trust?.id === "precharge-higher-setting" ? 1 : isLow ? 0 : 0.5;
  const shares = [1, 0.75, 0.5, 0.25, 0].filter((share) => share <= first);
  return [...new Set(shares.map((share) => low + share * (high - low)))].map((to) => [{ id: "precharge", to }]);
}

/** Physics where the pump starts and stops at full flow; practice with a drive; the larger where they agree or nothing parts them. */
function volume({ amounts, trust }: Advice): Tries {
  const practice = amounts.find((a) => a.id === "tank-volume-by-practice") ?? null;
  const most = amounts.reduce((max, a) => Math.max(max, a.high), 0);
  const to = trust?.id === "volume-drive" && practice !== null ? practice.low : most;
  return to > 0 ? [[{ id: "tank-volume", to }]] : NONE;
}

const ratio = (amount: Amount | null): Tries => (amount === null ? NONE : [[{ id: "gain", to: Math.sqrt(amount.low * amount.high) }]]);

/** Longer by what a run lacks; else as practice has it, where that is longer. */
function lengthened(missing: Amount | null, practice: Amount | null, now: number): Tries {
  const to = missing === null ? (practice?.low ?? 0) : now + missing.high;
  return to > now ? [[{ id: "sleep-delay", to }]] : NONE;
}
