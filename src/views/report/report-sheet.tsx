import { useId, useState } from "react";
import { ADVICE_IDS } from "../../../shared/findings/advice";
import type { Checklist } from "../../../shared/findings/checklist";
import { saveAsFile } from "../../parts/save-as-file";
import { eventsCsv } from "../../report/events-csv";
import { REPORT_SECTIONS, type ReportSectionId } from "../../report/report-input";
import { keepLetterhead, keptLetterhead } from "../../state/letterhead";
import type { StoryProps } from "../view-props";
import { dataAddress } from "./data-address";
import "./report-sheet.css";

const SECTION_NAMES: Readonly<Record<ReportSectionId, string>> = {
  customer: "A page in plain words for the customer",
  trace: "The whole record",
  findings: "Findings with pictures",
  acceptance: "Acceptance, one line a check",
  "before-and-after": "Before and after",
  causes: "Causes",
  "next-visit": "Next visit",
  "cannot-show": "What the log cannot show",
  "site-facts": "Site facts",
  record: "Fingerprint of the record",
};

/** Steps of the next visit that were ticked: the customer's page tells them as done. */
const doneSteps = ({ entries }: Checklist) => ADVICE_IDS.filter((id) => entries.some(({ step, done }) => done && step === id));

/** What goes into the report; it is written as one file that anyone can open, read and print without this program. */
export function ReportSheet({ state, visit, commands, preferences }: StoryProps) {
  const [leaveOut, setLeaveOut] = useState<readonly ReportSectionId[]>([]);
  const [letterhead, setLetterhead] = useState(() => keptLetterhead().lines.join("\n"));
  const [logo, setLogo] = useState(() => keptLetterhead().logo);
  const [paper, setPaper] = useState<"A4" | "Letter">(preferences.units.pressure === "psi" ? "Letter" : "A4");
  const [said, say] = useState("");
  const ids = { letterhead: useId(), logo: useId(), paper: useId() };
  const { name } = state.site.facts;

  const write = async () => {
    say("Writing the report.");
    const head = { lines: letterhead.split("\n").filter((line) => line.trim() !== ""), logo };
    keepLetterhead(head);
    const html = await commands.report({
      siteName: name,
      comparison: state.compared,
      done: doneSteps(state.checklist),
      letterhead: head,
      units: preferences.units,
      paper,
      leaveOut,
      writtenOn: new Intl.DateTimeFormat(preferences.units.locale ?? undefined, { dateStyle: "long" }).format(new Date()),
    });
    if (html === null) return say("The report could not be written: the record is no longer at hand. Bring the log in again.");
    saveAsFile(`report ${name ?? visit.files[0]?.name ?? ""}.html`, "text/html", html);
    say("The report is saved. Open it in any browser to read, print or save it as PDF.");
  };
  const takeLogo = async (file: File | undefined) => {
    if (file === undefined) return;
    const address = await dataAddress(file);
    if (address !== null) setLogo(address);
    say(address === null ? "The logo must be a PNG, JPEG or SVG picture under 1 MB." : "");
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
        <legend>What goes in</legend>
        {REPORT_SECTIONS.filter((id) => id !== "before-and-after" || state.compared !== null).map((id) => (
          <label key={id} className="choice">
            <input
              type="checkbox"
              checked={!leaveOut.includes(id)}
              onChange={({ target }) => setLeaveOut(target.checked ? leaveOut.filter((out) => out !== id) : [...leaveOut, id])}
            />
            {SECTION_NAMES[id]}
          </label>
        ))}
      </fieldset>
      <label htmlFor={ids.letterhead}>Your letterhead, a line each</label>
      <textarea id={ids.letterhead} rows={3} value={letterhead} onChange={(event) => setLetterhead(event.target.value)} />
      <label htmlFor={ids.logo}>Your logo (PNG, JPEG or SVG)</label>
      <input
        id={ids.logo}
        type="file"
        accept="image/png,image/jpeg,image/svg+xml"
        onChange={(event) => void takeLogo(event.target.files?.[0])}
      />
      {logo !== null && (
        <p className="button-row">
          <img className="report-logo" src={logo} alt="Your logo as it stands on the report" />
          <button type="button" onClick={() => setLogo(null)}>
            Take the logo off
          </button>
        </p>
      )}
      <label htmlFor={ids.paper}>Paper</label>
      <select id={ids.paper} value={paper} onChange={(event) => setPaper(event.target.value === "Letter" ? "Letter" : "A4")}>
        <option>A4</option>
        <option>Letter</option>
      </select>
      <p className="button-row">
        <button type="submit">Save the report</button>
        <button type="button" onClick={() => saveAsFile(`events ${name ?? ""}.csv`, "text/csv", eventsCsv(visit.document))}>
          Save all events as CSV
        </button>
      </p>
      <p role="status">{said}</p>
    </form>
  );
}
