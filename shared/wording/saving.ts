/** How a visit stands in the browser's store; the ids are those of the store's outcomes. */
export type SavingState = "nothing" | "saving" | "saved" | "saved-without-log" | "full" | "changed-elsewhere" | "not-possible";

const WORDS: Readonly<Record<SavingState, string>> = {
  nothing: "",
  saving: "Keeping this visit",
  saved: "Kept in this browser",
  "saved-without-log":
    "This browser has no room for the log itself: the visit is kept with its findings, facts and notes, without the log. Keep the log's files, or save the visit as a file with the log.",
  full: "This browser has no room left for this visit. What was kept before is untouched. Save this visit as a file, or delete visits you no longer need; then it is kept again.",
  "changed-elsewhere":
    "This visit was changed in another tab since you opened it here. Nothing was written over. Keep what stands here, or open what the other tab kept.",
  "not-possible":
    "This browser keeps nothing here (a private window, or storage is switched off). Save this visit as a file before you close the page.",
};

/** What it means for the person, and what to do where there is something to do. */
export const saySaving = (state: SavingState): string => WORDS[state];

/** Whether the person has to know: the rest is a quiet line. */
export const isSavingTrouble = (state: SavingState): boolean => state !== "nothing" && state !== "saving" && state !== "saved";
