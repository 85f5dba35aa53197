import type { FactKey } from "../../../shared/site/fact-key";
import type { Dispatch } from "../../state/visit-reducer";

/** The id of a fact's field on the page. */
export const factFieldId = (key: FactKey): string => `fact-${key.replace(".", "-")}`;

/** Frames to wait for the sheet, which may have to be fetched first. */
const MOST_FRAMES = 120;

/** Opens the site facts with the cursor in one field. */
export function goToFact(dispatch: Dispatch, key: FactKey): void {
  dispatch({ do: "open-sheet", sheet: "site-facts" });
  focusWhenThere(factFieldId(key), MOST_FRAMES);
}

function focusWhenThere(id: string, framesLeft: number): void {
  requestAnimationFrame(() => {
    const field = document.getElementById(id);
    if (field !== null) field.focus();
    else if (framesLeft > 0) focusWhenThere(id, framesLeft - 1);
  });
}
