import { SHEET_WORDS } from "../../shared/wording/page";
import { Sheet } from "../parts/sheet";
import type { Preferences } from "../state/preferences";
import { type SheetName, shownRecord, shownVisit } from "../state/visit-state";
import { Acceptance } from "./acceptance/acceptance";
import { BeforeAndAfter } from "./before-and-after/before-and-after";
import { Review } from "./bring-in/review";
import { HowShown } from "./how-shown";
import { Keys } from "./keys";
import { ReportSheet } from "./report/report-sheet";
import { Round } from "./round/round";
import { SiteFactsSheet } from "./site-facts/site-facts-sheet";
import type { PageProps } from "./view-props";
import { VisitsSheet } from "./visits/visits-sheet";

const WITH_TABLES: readonly SheetName[] = ["round", "before-and-after", "acceptance"];

type SheetsProps = PageProps & { readonly sheet: SheetName; readonly change: (change: Partial<Preferences>) => void };

/** The sheet that lies over the page. Loaded when the first one is opened. */
export default function Sheets({ sheet, change, ...page }: SheetsProps) {
  const read = shownRecord(page.state.visit);
  const visit = shownVisit(page.state.visit);
  return (
    // Each sheet is a dialog of its own: the closing of one, told late, must not close the next.
    <Sheet
      key={sheet}
      title={SHEET_WORDS[sheet].title}
      isWide={WITH_TABLES.includes(sheet)}
      onClose={() => page.dispatch({ do: "close-sheet" })}
    >
      {sheet === "site-facts" && <SiteFactsSheet {...page} />}
      {sheet === "bring-in" && read !== null && <Review {...page} read={read} />}
      {sheet === "before-and-after" && <BeforeAndAfter {...page} visit={visit} />}
      {sheet === "acceptance" && visit !== null && <Acceptance {...page} visit={visit} />}
      {sheet === "report" && visit !== null && <ReportSheet {...page} visit={visit} />}
      {sheet === "round" && <Round {...page} />}
      {sheet === "visits" && <VisitsSheet {...page} />}
      {sheet === "how-shown" && (
        <>
          <HowShown preferences={page.preferences} change={change} />
          <Keys />
        </>
      )}
    </Sheet>
  );
}
