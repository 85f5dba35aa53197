import { useState } from "react";
import { PICKER_WORDS } from "../../shared/wording/bring-in";
import { PAGE_WORDS, SHEET_WORDS, type SheetName } from "../../shared/wording/page";
import { FileButton } from "../parts/file-button";
import { shownRecord, shownVisit } from "../state/visit-state";
import { pickedFiles } from "./bring-in/picked-files";
import { useFilesOnPage } from "./bring-in/use-files-on-page";
import { LOW } from "./trace/trace-layout";
import { useMedia } from "./use-media";
import type { PageProps } from "./view-props";

/** What belongs to the visit. */
const OF_VISIT: readonly SheetName[] = ["site-facts", "what-if", "acceptance", "before-and-after", "report"];
/** What belongs to the person and this browser. */
const OF_PERSON: readonly SheetName[] = ["round", "visits", "how-shown"];
/** On a narrow page these stand outside the fold: what is used while one reads. */
const ALWAYS: readonly SheetName[] = ["site-facts", "what-if"];

/**
 * The head of the page: what stands on it, and the ways to its sheets. On a narrow page most of them are folded away, and all where it is
 * low as well, so that a page magnified four times begins with what it is about.
 */
export function Masthead({ state, commands, dispatch, kept }: PageProps) {
  const read = shownRecord(state.visit);
  const hasVisit = shownVisit(state.visit) !== null;
  /** Two kept visits can be compared without one on the page. */
  const hasItsVisit = (sheet: SheetName) => hasVisit || sheet === "site-facts" || (sheet === "before-and-after" && kept.visits.length > 1);
  const isDropping = useFilesOnPage((files) => commands.bringIn(files));
  const isNarrow = useMedia("(max-width: 640px)");
  const isTight = useMedia(LOW) && isNarrow;
  const [isOpen, setOpen] = useState(false);
  const isShown = (sheet: SheetName) => !isNarrow || isOpen || (!isTight && ALWAYS.includes(sheet));
  const way = (sheet: SheetName) =>
    isShown(sheet) && (
      <button
        key={sheet}
        type="button"
        aria-pressed={state.sheet === sheet ? true : undefined}
        onClick={() => {
          setOpen(false);
          dispatch({ do: "open-sheet", sheet });
        }}
      >
        {SHEET_WORDS[sheet].button}
      </button>
    );
  return (
    <header className="masthead">
      <h1>{PAGE_WORDS.name}</h1>
      <p className="masthead-what">{read === null ? "" : read.outline.files.map((file) => file.name).join(", ")}</p>
      <nav aria-label={PAGE_WORDS.navigation} data-folded={isTight && !isOpen}>
        <div className="nav-group">
          {read !== null && way("bring-in")}
          {OF_VISIT.filter(hasItsVisit).map(way)}
        </div>
        <div className="nav-group">
          {(!isTight || isOpen) && (
            <FileButton
              label={PICKER_WORDS.bringIn}
              fieldLabel={PICKER_WORDS.anyFiles}
              multiple
              onFiles={(files) => commands.bringIn(pickedFiles(files))}
            />
          )}
          {OF_PERSON.map(way)}
          {isNarrow && (
            <button type="button" aria-expanded={isOpen} onClick={() => setOpen(!isOpen)}>
              {isOpen ? PAGE_WORDS.fewerSheets : PAGE_WORDS.allSheets}
            </button>
          )}
        </div>
      </nav>
      {isDropping ? <p className="drop-veil">{PICKER_WORDS.letGo}</p> : null}
    </header>
  );
}
