import { useState } from "react";
import { VISIT_FILE_END, writeVisitFile } from "../../../shared/schemas/visit-file";
import { saySaving } from "../../../shared/wording/saving";
import { saySpace, VISITS_WORDS } from "../../../shared/wording/visits";
import { FileButton } from "../../parts/file-button";
import { saveAsFile } from "../../parts/save-as-file";
import type { KeptVisits } from "../../state/use-kept-visits";
import { archivedVisits, exportVisits, visitFileWithLog } from "../../storage/archive";
import { CorrectionList } from "../bring-in/correction-list";
import type { PageProps } from "../view-props";
import { KeptList } from "./kept-list";
import { KeptSummary } from "./kept-summary";
import { takeVisits } from "./take-visits";
import "./visits.css";

/** Visits kept in this browser, into files and out of them. Lies over the page as a sheet. */
export function VisitsSheet({ kept, preferences }: PageProps) {
  return (
    <div className="visits">
      <p role="status">{kept.openId === null ? VISITS_WORDS.noneOnPage : `${saySaving(kept.saving.state)}.`.replace("..", ".")}</p>
      {kept.trouble === null ? null : <p role="alert">{kept.trouble}</p>}
      {kept.shown === null ? null : <KeptSummary shown={kept.shown} units={preferences.units} />}
      <CurrentVisit kept={kept} />
      <h3>{VISITS_WORDS.keptHere}</h3>
      <KeptList kept={kept} locale={preferences.units.locale} />
      <p className="soft">{kept.space === null ? "" : saySpace(kept.space, preferences.units.locale)}</p>
      <InAndOut kept={kept} />
      <h3>{VISITS_WORDS.corrections}</h3>
      <CorrectionList />
    </div>
  );
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
        {VISITS_WORDS.saveThis}
      </button>
      <label className="visits-with-log">
        <input type="checkbox" checked={withLog} onChange={(event) => setWithLog(event.target.checked)} /> {VISITS_WORDS.withLog}
      </label>
    </div>
  );
}

function InAndOut({ kept }: { readonly kept: KeptVisits }) {
  const [said, say] = useState("");
  const here = kept.visits.filter((visit) => visit.deletedAt === null);
  const take = async (files: readonly File[]) => {
    const taken = await takeVisits(archivedVisits(files), kept, (count) => say(VISITS_WORDS.reading(count)));
    say(VISITS_WORDS.read(taken.read, taken.said));
  };
  const saveAll = async () => {
    const packed = await exportVisits(
      here.map((visit) => visit.id),
      (done, all) => say(VISITS_WORDS.packing(done, all)),
    );
    for (const [i, zip] of packed.entries()) saveAsFile(VISITS_WORDS.archive(i + 1, packed.length), "application/zip", zip);
    say("");
  };
  return (
    <>
      <p className="button-row">
        <FileButton
          label={VISITS_WORDS.openSaved}
          fieldLabel={VISITS_WORDS.savedVisits}
          accept=".json,.zip"
          multiple
          onFiles={(files) => void take(files)}
        />
        <button type="button" disabled={here.length === 0} onClick={() => void saveAll()}>
          {VISITS_WORDS.saveAll}
        </button>
      </p>
      <p role="status">{said}</p>
    </>
  );
}
