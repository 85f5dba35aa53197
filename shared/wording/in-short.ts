import type { FindingKind } from "../findings/finding";
import { withSmallInitial } from "./small-initial";

/** What breaks a limit, in as few words as will do in a list. */
const IN_A_LIST: { readonly [K in FindingKind]: string } = {
  "over-marked-pressure": "pressure above the tank's mark",
  cycling: "starts of the pump",
  "short-cycles": "short cycles",
  oscillation: "oscillation",
  drift: "drift at steady draw",
  tracking: "pressure outside its band",
  "tank-charge": "tank charge",
  "leak-down": "leak-down",
  sensor: "sensor signal",
  "pump-performance": "pump output",
  demand: "draw",
};

/** From here on one cause is more likely than all others together. */
const SETTLED = 0.5;

/** The parts of the story, as the rows of its summary are headed. */
export const IN_SHORT = {
  title: "In short",
  shows: "Shows",
  why: "Why",
  next: "Next",
} as const;

/**
 * What the log shows against the limits; where nothing is over one, how much it could not show at all, lest silence reads as praise.
 * @param open number of things that this log cannot show
 * @param notMet names of the acceptance sheet's checks that are not met: they judge by themselves, also where no finding breaks a limit
 */
export function sayLimitsInShort(over: readonly FindingKind[], found: number, open: number, notMet: readonly string[] = []): string {
  if (over.length > 0) return `Over the limit: ${over.map((kind) => IN_A_LIST[kind]).join(", ")}.`;
  if (notMet.length > 0) return `Not met on the acceptance sheet: ${notMet.map(withSmallInitial).join("; ")}.`;
  const nothing = found === 0 ? "Nothing that needs a word" : "Nothing over a limit";
  return open === 0 ? `${nothing}.` : `${nothing}; ${open === 1 ? "one thing" : `${open} things`} it cannot show.`;
}

type Ranked = { readonly name: string; readonly confidence: number; readonly share: string };

/** The likeliest cause; the second beside it while the first is less likely than all others together. */
export function sayCausesInShort(causes: readonly Ranked[]): string {
  const [first, second] = causes;
  if (first === undefined) return "Nothing to weigh yet.";
  if (first.confidence >= SETTLED || second === undefined) return `Most likely: ${withSmallInitial(first.name)} (${first.share}).`;
  return `Not settled: ${withSmallInitial(first.name)} (${first.share}) or ${withSmallInitial(second.name)} (${second.share}).`;
}

/** The first step of the next visit, and how many there are. */
export function sayStepsInShort(titles: readonly string[]): string {
  const [first, ...more] = titles;
  if (first === undefined) return "No step yet.";
  return `${first}${more.length === 0 ? "." : `; then ${more.length === 1 ? withSmallInitial(more[0]) : `${more.length} more steps`}.`}`;
}
