/** What heads and joins the chapters of the story. */
export const FINDINGS_WORDS = {
  title: "What this log shows",
  waiting: "The story of this log",
  willStand:
    "It stands here as soon as it is worked out: what the log shows, why, and what to do on the next visit. The trace can be moved meanwhile.",
  soFar: "Found so far",
  nothing: "Nothing was found that needs a word. What was asked, and what this log cannot show, stands below.",
  over: "Over the limit:",
  alsoMeasured: (count: number) => `Also measured (${count})`,
  clear: "Asked and in order",
  cannot: "What this log cannot show",
  means: "What this means",
  worked: "How this was worked out, and what would make it wrong",
  restsOn: "Rests on",
  wrongIf: "This is wrong if:",
  sharperWith: (by: string) => `Sharper with ${by}.`,
  enterIt: "Enter it",
  showOnTrace: "Show on trace",
  showPlaces: (count: number) => `Show on trace${count > 1 ? ` (${count} places)` : ""}`,
  placeByPlace: "Place by place",
} as const;

export const CAUSES_WORDS = {
  title: "Why",
  nothing:
    "Causes are weighed once the log shows something to weigh. With a pressure log of a day and the site facts there is most to go by.",
  /** Before and after the explained word. */
  weighed: ["Weighed against each other;", "add up to 100\u202f%."],
  confidences: "confidences",
  confidenceIn: (cause: string) => `Confidence in ${cause}`,
  alsoWeighed: (count: number) => `Also weighed (${count})`,
  earlier: (share: string) => `Before the last entry: ${share}.`,
  beside: (share: string) => `It may well hold beside the first: ${share}.`,
  speaksFor: "For it:",
  speaksAgainst: "Against it:",
  onlyHints: "Only hints.",
  allReasons: (forIt: number, against: number) => `All that speaks for it (${forIt}) and against it (${against})`,
  meaningAndReasons: (forIt: number, against: number) => `What it means, what speaks for it (${forIt}) and against it (${against})`,
  settles: "What would settle it.",
  asInStep: (title: string, number: number) => `${title}: step ${number} below.`,
} as const;

export const NEXT_VISIT_WORDS = {
  title: "Next visit",
  nothing:
    "Steps follow from the causes. Where the log shows nothing to weigh, there is nothing to do yet; what it cannot show is said above.",
  everyStep: "For every step",
  whyTwoAmounts: "Why two amounts?",
  workOutEffects: "Work out what each change would do here",
  effects: {
    running: "A model is being fitted to this log and run with each change.",
    none: "The model has nothing to say of these steps: it needs the pump's running and what was drawn.",
    failed: "That was stopped. Ask again.",
  },
  notes: "Notes of this visit",
  done: "(done)",
  beforeYouTouch: "Before you touch anything",
  cautions: (title: string) => `Cautions: ${title}`,
  againCautions: (all: readonly string[]) => `As before: ${all.join("; ")}.`,
  restOn: "What these rest on",
  inFullAndRestOn: "In full, and what they rest on",
  why: "Why, and if this is wrong",
  worked: "How this was worked out, why, and if this is wrong",
  because: "Because",
  expect: "Expect",
  ifWrong: "If this is wrong:",
  note: "Note",
  noteOn: (step: string) => `Note on: ${step}`,
} as const;

export const REWORKING = "Working it out again with what you entered.";
