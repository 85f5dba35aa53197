import type { Amount } from "../../../shared/findings/advice";
import { found } from "../../diagnosis/observations/sight";
import { CAUTIONS } from "../cautions";
import { PLAIN, type Rule } from "../rule";

/** A longer delay before the drive sleeps, or a wider band before it wakes. */
export const lengthenSleepDelay: Rule = {
  id: "lengthen-sleep-delay",
  answers: ["sleep-settings-hunting"],
  step: "change",
  propose(basis) {
    const limit = basis.site.shortCycleLimit;
    const run = found(basis, "cycling")?.medianRun ?? null;
    const asPractice: Amount = {
      id: "sleep-delay-by-practice",
      quantity: "time",
      basis: "common practice",
      low: limit.value,
      high: 2 * limit.value,
      inputs: [{ name: "run-time", quantity: "time", value: limit.value, from: limit.from }],
    };
    const missing = run === null || run >= limit.value ? null : limit.value - run;
    const byRun: Amount[] =
      missing === null || run === null
        ? []
        : [
            {
              id: "sleep-delay-by-run-time",
              quantity: "time",
              basis: "physics",
              low: missing,
              high: missing,
              inputs: [
                { name: "run-time", quantity: "time", value: limit.value, from: limit.from },
                { name: "period", quantity: "time", value: run, from: "log" },
              ],
            },
          ];
    return { ...PLAIN, amounts: [asPractice, ...byRun], sources: ["practice"], cautions: CAUTIONS.settings };
  },
};
