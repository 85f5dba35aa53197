/** Sheets that lie over the page or stand beside the trace. */
export const SHEET_NAMES = [
  "bring-in",
  "site-facts",
  "what-if",
  "acceptance",
  "before-and-after",
  "report",
  "round",
  "visits",
  "how-shown",
] as const;
export type SheetName = (typeof SHEET_NAMES)[number];

/** What the masthead calls a sheet, and what stands over the sheet itself. */
export const SHEET_WORDS: Readonly<Record<SheetName, { readonly button: string; readonly title: string }>> = {
  "bring-in": { button: "How it was read", title: "How the files were read" },
  "site-facts": { button: "Site facts", title: "Site facts" },
  "what-if": { button: "What if", title: "What if" },
  acceptance: { button: "Acceptance", title: "Acceptance" },
  "before-and-after": { button: "Before and after", title: "Before and after" },
  report: { button: "Report", title: "Report" },
  round: { button: "Round", title: "Round" },
  visits: { button: "Visits", title: "Visits kept in this browser" },
  "how-shown": { button: "How it is shown", title: "How it is shown" },
};

/** These stand beside the trace, in the place of the story, wherever there is a trace. */
export const BESIDE_TRACE: readonly SheetName[] = ["what-if", "site-facts"];

export const PAGE_WORDS = {
  name: "Evenhead",
  navigation: "Page",
  allSheets: "All sheets",
  fewerSheets: "Fewer",
  skip: "Skip to the story",
  /** Said once, for readers who listen, when a visit has been worked out. */
  ready: (title: string) => `Worked out: ${title}. The trace and its story stand on the page.`,
  close: "Close",
  backToStory: "Back to the story",
  takeAlong: "Take it along",
  writeReport: "Write the report",
  saveFindings: "Save the findings as JSON",
  saveEvents: "Save the events as CSV",
} as const;
