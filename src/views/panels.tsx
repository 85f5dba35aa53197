import { SHEET_WORDS, type SheetName } from "../../shared/wording/page";
import { Panel } from "../parts/panel";
import { shownVisit } from "../state/visit-state";
import { InShortLines } from "./in-short/in-short";
import { ReworkingNote } from "./reworking-note";
import { SiteFactsSheet } from "./site-facts/site-facts-sheet";
import type { PageProps } from "./view-props";
import { WhatIf } from "./what-if/what-if";

/** What stands beside the trace, in the place of the story. Loaded when the first one is opened. */
export default function Panels({ sheet, ...page }: PageProps & { readonly sheet: SheetName }) {
  const visit = shownVisit(page.state.visit);
  return (
    <Panel key={sheet} title={SHEET_WORDS[sheet].title} onClose={() => page.dispatch({ do: "close-sheet" })}>
      {sheet === "site-facts" && (
        <>
          <ReworkingNote {...page} />
          {visit !== null && <InShortLines {...page} visit={visit} />}
          <SiteFactsSheet {...page} />
        </>
      )}
      {sheet === "what-if" && visit !== null && <WhatIf {...page} visit={visit} />}
    </Panel>
  );
}
