import type { FactKey } from "../../../shared/site/fact-key";
import type { Dispatch } from "../../state/visit-reducer";

/** The id of a fact's field on the page. */
export const factFieldId = (key: FactKey): string => `fact-${key.replace(".", "-")}`;

/** Opens the site facts with the cursor in one field. */
export function goToFact(dispatch: Dispatch, key: FactKey): void {
  dispatch({ do: "open-sheet", sheet: "site-facts" });
  // The sheet stands after the next paint.
  requestAnimationFrame(() => requestAnimationFrame(() => document.getElementById(factFieldId(key))?.focus()));
}
