import { saySize } from "./reading-progress";

const MOST_SAID = 5;

/** Words of the visits kept in this browser, into files and out of them. */
export const VISITS_WORDS = {
  noneOnPage: "No visit stands on the page.",
  keptHere: "Kept here",
  none: "Each log you bring in is kept here as a visit, with its facts, findings, ticks and notes.",
  corrections: "Corrections remembered for logs with the same headings",
  saveThis: "Save this visit as a file",
  withLog: "with the log itself, so that it can be worked out again",
  openSaved: "Open saved visits",
  savedVisits: "Saved visits",
  saveAll: "Save all visits as one file",
  reading: (done: number) => `Reading saved visits: ${done}.`,
  read: (read: number, said: readonly string[]) =>
    [
      read > 1 || said.length > 0 ? `${read} ${read === 1 ? "visit" : "visits"} read.` : "",
      ...said.slice(0, MOST_SAID),
      said.length > MOST_SAID ? `The same holds for ${said.length - MOST_SAID} more.` : "",
    ]
      .filter((sentence) => sentence !== "")
      .join(" "),
  archive: (i: number, all: number) => `evenhead visits${all === 1 ? "" : ` ${i} of ${all}`}.zip`,
  packing: (done: number, all: number) => `Packing ${done} of ${all} visits.`,
  open: "Open",
  openVisit: (title: string) => `Open ${title}`,
  remove: "Delete",
  removeVisit: (title: string) => `Delete ${title}`,
  deleted: ": deleted",
  putBack: "Put back",
  putBackVisit: (title: string) => `Put back ${title}`,
  removeForGood: "Do away with the deleted visits now",
  onPage: " (on the page)",
  kept: (when: string, bytes: number, hasLog: boolean, locale: string | null) =>
    `, kept ${when}, ${saySize(bytes, locale)}${hasLog ? "" : ", without its log"}`,
  browserSays: "The browser says: ",
  keepThis: "Keep what stands here",
  openOther: "Open what the other tab kept",
  showKept: "Show the kept visits",
  anotherVersion: "Another version",
  savedWithoutLog: (program: string | null) =>
    `Saved without its log${program === null ? "" : `, by version ${program}`}. To work it out again, bring in the log and read the facts from a file.`,
  noFindings: "It holds no findings.",
  steps: "Steps it named",
  notes: "Notes: ",
  notKept: "This visit is no longer kept in this browser, or cannot be read from it.",
  listRefused: "The browser refused to change its list of visits, so nothing has changed. Try it again.",
  keepsNothing: "This browser keeps no visits here (a private window, or storage is switched off). Save visits as files.",
  damagedInPart: (name: string, lost: readonly string[]) => `${name} is damaged in part. ${lost.join(" ")}`,
  fromFile: (title: string) => `${title} (from a file)`,
} as const;

/** What the visits take, what the browser allows, bytes, and whether it has promised not to clear them by itself; null where it does not say. */
export function saySpace(
  { visits, quota, lasts }: { readonly visits: number; readonly quota: number | null; readonly lasts: boolean | null },
  locale: string | null,
): string {
  const allowed = quota === null ? "" : ` This browser allows about ${saySize(quota, locale)} for this page.`;
  return `The visits take ${saySize(visits, locale)}.${allowed}${PROMISE.get(lasts) ?? ""} They stay on this device and go with the browser's data: save what must last as a file.`;
}

/** Storage Standard (WHATWG), persistent and best-effort buckets. */
const PROMISE: ReadonlyMap<boolean | null, string> = new Map([
  [true, " It will not clear them by itself when the device runs short of room."],
  [false, " It may clear them when the device runs short of room."],
]);
