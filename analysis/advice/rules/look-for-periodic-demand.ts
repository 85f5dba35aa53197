import type { Amount } from "../../../shared/findings/advice";
import { found } from "../../diagnosis/observations/sight";
import { CAUTIONS } from "../cautions";
import { PLAIN, type Rule } from "../rule";

/** Find the consumer with the period that the log shows. */
export const lookForPeriodicDemand: Rule = {
  id: "look-for-periodic-demand",
  answers: ["demand-is-periodic"],
  step: "look",
  propose(basis) {
    const episodes = (found(basis, "oscillation")?.episodes ?? []).filter((e) => e.drivenBy === "demand");
    const longest = episodes.reduce<(typeof episodes)[number] | null>(
      (a, b) => (a === null || b.to - b.from > a.to - a.from ? b : a),
      null,
    );
    const amounts: Amount[] =
      longest === null
        ? []
        : [
            {
              id: "demand-period",
              quantity: "time",
              basis: "physics",
              low: longest.period.low,
              high: longest.period.high,
              inputs: [{ name: "period", quantity: "time", value: longest.period.value, from: "log" }],
            },
          ];
    return { ...PLAIN, amounts, sources: ["practice"], cautions: CAUTIONS.looking };
  },
};
