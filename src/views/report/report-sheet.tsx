import { useId, useState } from "react";
import { COMPARISON_WORDS } from "../../../shared/wording/comparison";
import { REPORT_WORDS } from "../../../shared/wording/report-sheet";
import { FileButton } from "../../parts/file-button";
import { saveAsFile } from "../../parts/save-as-file";
import { eventsCsv } from "../../report/events-csv";
import { REPORT_SECTIONS, type ReportSectionId } from "../../report/report-input";
import { keepLetterhead, keptLetterhead } from "../../state/letterhead";
import type { StoryProps } from "../view-props";
import { dataAddress } from "./data-address";
import "./report-sheet.css";
import { FILE_NAMES } from "../../../shared/wording/file-name";

/** Notes may be meant for colleagues only: they go in where that is asked for. */
const LEFT_OUT_AT_FIRST: readonly ReportSectionId[] = ["notes"];

/** What goes into the report; it is written as one file that anyone can open, read and print without this program. */
export function ReportSheet({ state, visit, commands, preferences, kept: { compared, isComparing } }: StoryProps) {
  const [leaveOut, setLeaveOut] = useState<readonly ReportSectionId[]>(LEFT_OUT_AT_FIRST);
  const [letterhead, setLetterhead] = useState(() => keptLetterhead().lines.join("\n"));
  const [logo, setLogo] = useState(() => keptLetterhead().logo);
  const [paper, setPaper] = useState<"A4" | "Letter">(preferences.units.pressure === "psi" ? "Letter" : "A4");
  const [said, say] = useState("");
  const ids = { letterhead: useId(), paper: useId() };
  const { name } = state.site.facts;

  const write = async () => {
    say(REPORT_WORDS.writing);
    const head = { lines: letterhead.split("\n").filter((line) => line.trim() !== ""), logo };
    keepLetterhead(head);
    const html = await commands.report({
      siteName: name,
      comparison: compared,
      checklist: state.checklist,
      letterhead: head,
      units: preferences.units,
      paper,
      leaveOut,
      writtenOn: new Intl.DateTimeFormat(preferences.units.locale ?? undefined, { dateStyle: "long" }).format(new Date()),
    });
    if (html === null) return say(REPORT_WORDS.lost);
    saveAsFile(FILE_NAMES.report(name ?? visit.files[0]?.name ?? ""), "text/html", html);
    say(REPORT_WORDS.saved);
  };
  const takeLogo = async (file: File | undefined) => {
    if (file === undefined) return;
    const address = await dataAddress(file);
    if (address !== null) setLogo(address);
    say(address === null ? REPORT_WORDS.notALogo : "");
  };
  return (
    <form
      className="report-sheet"
      onSubmit={(event) => {
        event.preventDefault();
        void write();
      }}
    >
      <fieldset className="choices">
        <legend>{REPORT_WORDS.whatGoesIn}</legend>
        {REPORT_SECTIONS.filter((id) => id !== "before-and-after" || compared !== null).map((id) => (
          <label key={id} className="choice">
            <input
              type="checkbox"
              checked={!leaveOut.includes(id)}
              onChange={({ target }) => setLeaveOut(target.checked ? leaveOut.filter((out) => out !== id) : [...leaveOut, id])}
            />
            {REPORT_WORDS.sections[id]}
          </label>
        ))}
      </fieldset>
      <label htmlFor={ids.letterhead}>{REPORT_WORDS.letterhead}</label>
      <textarea id={ids.letterhead} rows={3} value={letterhead} onChange={(event) => setLetterhead(event.target.value)} />
      <p className="button-row">
        <FileButton
          label={REPORT_WORDS.pickLogo}
          fieldLabel={REPORT_WORDS.logo}
          accept="image/png,image/jpeg,image/svg+xml"
          onFiles={([file]) => void takeLogo(file)}
        />
      </p>
      {logo !== null && (
        <p className="button-row">
          <img className="report-logo" src={logo} alt={REPORT_WORDS.logoNow} />
          <button type="button" onClick={() => setLogo(null)}>
            {REPORT_WORDS.noLogo}
          </button>
        </p>
      )}
      <label htmlFor={ids.paper}>{REPORT_WORDS.paper}</label>
      <select id={ids.paper} value={paper} onChange={(event) => setPaper(event.target.value === "Letter" ? "Letter" : "A4")}>
        {(["A4", "Letter"] as const).map((name) => (
          <option key={name}>{name}</option>
        ))}
      </select>
      <p className="button-row">
        <button type="submit" disabled={isComparing}>
          {REPORT_WORDS.save}
        </button>
        <button type="button" onClick={() => saveAsFile(FILE_NAMES.events(name ?? ""), "text/csv", eventsCsv(visit.document))}>
          {REPORT_WORDS.saveEvents}
        </button>
      </p>
      <p role="status">{isComparing ? COMPARISON_WORDS.comparing : said}</p>
    </form>
  );
}
