import { useMemo } from "react";
import { SITE_FACTS_WORDS } from "../../../shared/wording/site-fact";
import { UndoButtons } from "../undo-buttons";
import type { PageProps } from "../view-props";
import { type FactEntries, readEntries, toSiteEntry } from "./entries";
import { FactFields } from "./fact-fields";
import { SiteFileButtons } from "./site-file-buttons";
import "./site-facts.css";

/** The site facts as a person writes them, checked as each is left; the findings follow at once. Lies over the page as a sheet. */
export function SiteFactsSheet({ state, preferences, commands }: PageProps) {
  const entries: FactEntries = state.site.written;
  const read = useMemo(() => readEntries(entries), [entries]);
  const { pressure, flow, volume, length, power } = preferences.units;
  const enter = (next: FactEntries) => commands.enterSite(toSiteEntry(next));
  return (
    <div className="site-facts">
      <p>{SITE_FACTS_WORDS.howWritten([pressure, flow, volume, length, power])}</p>
      <UndoButtons state={state} commands={commands} />
      <FactFields entries={entries} read={read} units={preferences.units} onEntries={enter} />
      <SiteFileButtons entries={entries} onEntries={enter} />
    </div>
  );
}
