import type { CannotTell, CannotTellTopic } from "../findings/cannot-tell";
import { formatQuantity } from "../units/format-quantity";
import type { UnitChoice } from "../units/unit-choice";

const TOPICS: { readonly [K in CannotTellTopic]: string } = {
  starts: "how often the pump starts",
  "short-cycles": "whether runs are too short",
  oscillation: "whether the pressure oscillates",
  drift: "whether pressure drifts at steady flow",
  tank: "what the tank holds",
  leak: "whether water leaks back",
  cause: "what the cause is",
};

/** What a log lacks that is long enough and has its channels: `detail.why`. */
const NOTHING_TO_SEE = {
  "single-events": "its rows are single events with a flow each, and nothing says how long the flow lasted",
  "no-steady-minute": "no stretch of a minute has the pump running at steady flow",
  "may-be-draws":
    "the pressure falls at rest, but not alike every time, and without a meter after the tank a slow draw looks like a leak. Log one",
  "fall-too-wide":
    "the pressure falls at rest, but how much water that is stays open by more than three to one. Log for longer, with more draws at rest",
  "no-service-pressure": "the pressure never reaches what a pumped water system holds",
  "pressure-difference":
    "this does not look like a system that is diagnosed here: the pressure logged is the difference between two places, as across a circulating pump, not that of a supply held by a pump and a tank",
  "pump-fills-a-tank":
    "this does not look like a system that is diagnosed here: the logged level rises while the pump runs, so that the pump fills an open tank and is switched by its level, not by a pressure",
  "runs-too-short": "no run of the pump lasts long enough for a wave to repeat",
  "meter-before-tank": "the flow meter stands before the tank and does not see what is drawn from it at rest. Log a meter after the tank",
} as const;
export type NothingToSee = keyof typeof NOTHING_TO_SEE;
const isNothingToSee = (why: unknown): why is NothingToSee => typeof why === "string" && Object.hasOwn(NOTHING_TO_SEE, why);

/** "This log cannot show ..., because ...; log ... instead." */
export function sayCannotTell(c: CannotTell, units: UnitChoice): string {
  const why = reason(c, units);
  return why === null ? sayProgramFailed(c) : `This log cannot show ${topic(c, units)}: ${why}`;
}

/** Where only fast waves or fine scatter are hidden, no more is said to be hidden than that. */
function topic(c: CannotTell, units: UnitChoice): string {
  if (c.about === "cause" && c.id === "quantised-too-coarse") return "fine scatter of the pressure signal";
  const hiddenBelow = c.about === "oscillation" ? c.detail.hiddenBelowS : null;
  return typeof hiddenBelow === "number" ? `waves shorter than ${formatQuantity(hiddenBelow, "time", units, 2)}` : TOPICS[c.about];
}

/** Not the log's fault: the log may show it well. */
const sayProgramFailed = ({ about }: CannotTell) => `This program failed before it could say ${TOPICS[about]}; the log may show it.`;

const LOG_THE_PUMP = "Log the drive's speed, the motor current or a running contact.";
const UNSEEN = "nothing in it says when the pump ran";
/** Starts are told by where the pressure turns up again; what makes that doubtful. */
const LOWS = {
  waves: "starts are read from where the pressure turns, and some of those turns come to and fro as the waves of a control loop do",
  overdrawn:
    "starts are read from where the pressure turns, and more may have been drawn than the pump gives, which turns it as low while the pump runs",
  others: "starts are read from where the pressure turns, and turns that were not counted may be starts as well",
} as const;

function reason(c: CannotTell, units: UnitChoice): string | null {
  const time = (name: string) => (typeof c.detail[name] === "number" ? formatQuantity(c.detail[name], "time", units, 2) : null);
  const near = typeof c.detail.unsureRuns === "number" ? `. ${c.detail.unsureRuns} of the runs lie nearer to the limit than that` : "";
  const word = (name: string) => (typeof c.detail[name] === "string" ? c.detail[name] : null);
  const every = time("logEveryS");
  switch (c.id) {
    case "sampling-too-slow":
      return `it is sampled ${time("intervalS") === null ? "too slowly" : `every ${time("intervalS")}`}${near}. ${every === null ? "Log faster" : `Log every ${every} or faster`}.`;
    case "record-too-short":
      return `it is too short. Log for at least ${time("needS") ?? "a day of normal use"}.`;
    case "no-flow-channel":
      return "no flow was logged. Log the flow meter beside the pressure.";
    case "no-pump-state":
      return `${word("lows") === null ? UNSEEN : LOWS[word("lows") as keyof typeof LOWS]}. ${LOG_THE_PUMP}`;
    case "quantised-too-coarse": {
      const step = typeof c.detail.stepPa === "number" ? formatQuantity(c.detail.stepPa, "pressureDifference", units, 2) : null;
      return `${step === null ? "its steps are too coarse" : `it moves in steps of ${step}`}. Use a finer resolution or a smaller sensor range.`;
    }
    case "gaps-too-many":
      return "it has too many gaps. Check the logger's memory and battery and log again.";
    case "clock-unreliable":
      return "its clock jumps or repeats. Set the logger's clock and log again.";
    case "site-fact-missing":
      return `a site fact is missing${word("missing") === null ? "" : ` (${word("missing")})`}. Enter it under site facts.`;
    case "no-pressure-channel":
      return "no pressure was logged. Log the pressure at the tank's tapping.";
    case "nothing-to-see":
      return `${isNothingToSee(c.detail.why) ? NOTHING_TO_SEE[c.detail.why] : "the record holds no stretch in which it would show"}.`;
    case "program-failed":
      return null;
    case "outside-model":
      return `${word("why") ?? "the site does not behave like one pump with one tank"}.`;
  }
}
