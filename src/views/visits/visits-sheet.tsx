import { useRef, useState } from "react";
import { writeVisitFile } from "../../../shared/schemas/visit-file";
import { saySize } from "../../../shared/wording/reading-progress";
import { saySaving } from "../../../shared/wording/saving";
import { saveAsFile } from "../../parts/save-as-file";
import type { KeptVisits } from "../../state/use-kept-visits";
import { exportVisits, readArchive, VISIT_FILE_END, visitFileWithLog } from "../../storage/archive";
import type { SpaceUsed } from "../../storage/visit-store";
import { CorrectionList } from "../bring-in/correction-list";
import type { PageProps } from "../view-props";
import { KeptList } from "./kept-list";
import { KeptSummary } from "./kept-summary";
import "./visits.css";

/** Visits kept in this browser, into files and out of them. Lies over the page as a sheet. */
export function VisitsSheet({ kept, preferences }: PageProps) {
  return (
    <div className="visits">
      <p role="status">{kept.openId === null ? "No visit stands on the page." : `${saySaving(kept.saving.state)}.`.replace("..", ".")}</p>
      {kept.trouble === null ? null : <p role="alert">{kept.trouble}</p>}
      {kept.shown === null ? null : <KeptSummary shown={kept.shown} />}
      <CurrentVisit kept={kept} />
      <h3>Kept here</h3>
      <KeptList kept={kept} locale={preferences.units.locale} />
      <p className="soft">{kept.space === null ? "" : saySpace(kept.space, preferences.units.locale)}</p>
      <InAndOut kept={kept} />
      <h3>Corrections remembered for logs with the same headings</h3>
      <CorrectionList />
    </div>
  );
}

/** What the visits take and what the browser allows. */
function saySpace({ visits, quota }: SpaceUsed, locale: string | null): string {
  const allowed = quota === null ? "" : ` This browser allows about ${saySize(quota, locale)} for this page.`;
  return `The visits take ${saySize(visits, locale)}.${allowed} They stay on this device and go with the browser's data: save what must last as a file.`;
}

function CurrentVisit({ kept }: { readonly kept: KeptVisits }) {
  const [withLog, setWithLog] = useState(true);
  const form = kept.current;
  if (form === null || kept.openId === null) return null;
  const save = async () => {
    const file = withLog ? await visitFileWithLog(kept.openId ?? "") : null;
    const name = `${form.about?.title ?? "visit"}${VISIT_FILE_END}`;
    saveAsFile(file?.name ?? name, "application/json", file?.text ?? writeVisitFile(form));
  };
  return (
    <div className="button-row">
      <button type="button" onClick={() => void save()}>
        Save this visit as a file
      </button>
      <label className="visits-with-log">
        <input type="checkbox" checked={withLog} onChange={(event) => setWithLog(event.target.checked)} /> with the log itself, so that it
        can be worked out again
      </label>
    </div>
  );
}

function InAndOut({ kept }: { readonly kept: KeptVisits }) {
  const input = useRef<HTMLInputElement>(null);
  const here = kept.visits.filter((visit) => visit.deletedAt === null);
  const take = async (files: readonly File[]) => {
    const found = await readArchive(files);
    for (const { name, text, files: log } of found) await kept.take(name, text, log, found.length === 1);
  };
  return (
    <p className="button-row">
      <button type="button" onClick={() => input.current?.click()}>
        Open saved visits
      </button>
      <button
        type="button"
        disabled={here.length === 0}
        onClick={() =>
          void exportVisits(here.map((visit) => visit.id)).then((zip) => saveAsFile("evenhead visits.zip", "application/zip", zip))
        }
      >
        Save all visits as one file
      </button>
      <input
        ref={input}
        type="file"
        multiple
        hidden
        accept=".json,.zip"
        aria-label="Saved visits"
        onChange={(event) => {
          const files = [...(event.target.files ?? [])];
          event.target.value = "";
          if (files.length > 0) void take(files);
        }}
      />
    </p>
  );
}
