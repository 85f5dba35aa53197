import type { Advice, Effect } from "../../shared/findings/advice";
import type { Analysis } from "../../shared/findings/analysis";
import type { PredictedSpan, Prediction, WhatIfAnswer, WhatIfWarning } from "../../shared/findings/what-if";
import type { FittedSite } from "../model/fit";
import { whatIfInSteps } from "../model/what-if";
import { busyWindows } from "../model/what-if/predict";
import { changesOfStep } from "./changes-of-step";
import { stopOverMarkedPressure } from "./rules/stop-over-marked-pressure";

const DAY = 86_400; // s

/**
 * The advice with what the fitted model says that each step would do here, over the day around the busiest hour, with its spread. Where that
 * pressure would pass the tank's mark the alarm goes before everything, if it does not stand there already.
 * Steps whose change the model does not know stay as they are; so do all where the draw is not known.
 */
export function* withEffectsInSteps(analysis: Analysis, fitted: FittedSite): Generator<undefined, readonly Advice[]> {
  const { site, segments, outcomes } = analysis;
  const span = busyDay(fitted);
  const sleepDelay = fitted.parameters["sleep-delay"].value;
  let now: Prediction | null = null;
  const told: Advice[] = [];
  for (const step of analysis.advice) {
    let answer: WhatIfAnswer | null = null;
    const refused: WhatIfWarning[] = [];
    for (const changes of changesOfStep(step, sleepDelay)) {
      answer = yield* whatIfInSteps(fitted, site, segments, outcomes, changes, span, now);
      now = answer?.now ?? now;
      const empties = answer?.warnings.filter(({ id }) => id === "tank-runs-empty") ?? [];
      refused.push(...empties);
      if (empties.length === 0) break;
    }
    told.push(answer === null ? step : { ...step, effect: effectOf(answer, refused) });
  }
  return [...alarmOf(analysis, told), ...told];
}

/** What was tried first and empties the tank is told before what was tried instead. */
const effectOf = ({ changes, now, after, warnings }: WhatIfAnswer, refused: readonly WhatIfWarning[]): Effect => ({
  changes,
  now: now.measures,
  after: after.measures,
  warnings: [...refused.slice(0, 1), ...warnings.filter(({ id }) => id !== "tank-runs-empty")],
});

function busyDay({ trace }: FittedSite): PredictedSpan {
  const whole = { from: 0, to: trace.times[trace.times.length - 1] };
  if (whole.to <= DAY) return whole;
  const [hour] = busyWindows(trace, whole);
  const from = Math.max(0, Math.min(hour.from - DAY / 2, whole.to - DAY));
  return { from, to: from + DAY };
}

/** The alarm, where only the model shows that the mark would be passed. */
function alarmOf({ site, causes, outcomes, segments }: Analysis, told: readonly Advice[]): readonly Advice[] {
  const { id, answers, step } = stopOverMarkedPressure;
  if (told.some((advice) => advice.id === id)) return [];
  const highest = told.flatMap(({ effect }) => (effect === null ? [] : [effect.now["highest-pressure"].value]));
  const predicted = highest.reduce<number | null>((most, p) => (most === null || p > most ? p : most), null);
  const proposal = stopOverMarkedPressure.propose({ causes, outcomes, segments, site, predicted }, causes[0]);
  if (proposal === null) return [];
  return [{ id, answers, step, ...proposal, effect: null, because: { cause: null, confidence: null, reason: null } }];
}
