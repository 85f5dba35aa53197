import { useEffect, useMemo, useState } from "react";
import { withCompanyLimits } from "../../../shared/site/company-limits";
import { NO_SITE_FACTS } from "../../../shared/site/read-site-facts";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { ROUND_WORDS } from "../../../shared/wording/round";
import { saveAsFile } from "../../parts/save-as-file";
import { keptCompanyLimits } from "../../state/company-limits";
import { archivedVisits } from "../../storage/archive";
import { addDigests } from "../../storage/visit-store";
import type { PageProps } from "../view-props";
import { readRoundFiles } from "./read-round-files";
import { eachOnce, fromStored, type OpenedFile, type RoundEntry } from "./round-entry";
import { roundCsv } from "./round-export";
import { arrange, roundRows } from "./round-rows";
import { roundSummary } from "./round-summary";
import { RoundTable } from "./round-table";
import { type RoundChoice, RoundTools } from "./round-tools";
import "./round.css";

const AT_FIRST: RoundChoice = { order: "attention", search: "", filter: "all" };

/** Every visit kept in this browser, and those of a folder that is opened: what needs attention first, and why. */
export function Round({ kept, preferences, dispatch }: PageProps) {
  const [now] = useState(() => Date.now());
  const [opened, setOpened] = useState<readonly OpenedFile[]>([]);
  const [choice, setChoice] = useState<RoundChoice>(AT_FIRST);
  const [said, say] = useState("");
  const { units } = preferences;
  const { rows, twice } = useRows(kept.visits, opened, units);
  const shown = useArranged(rows, choice);
  useEffect(() => {
    addDigests(kept.refresh).catch(() => {});
  }, [kept.refresh]);

  const openFiles = async (files: readonly File[]) => {
    const read = await readRoundFiles(files, (done, all) => say(ROUND_WORDS.reading(done, all)));
    say(read.length === 0 && files.length > 0 ? ROUND_WORDS.nothingRead : "");
    setOpened(read);
  };
  const openVisit = async (entry: RoundEntry) => {
    dispatch({ do: "close-sheet" });
    let hasLog = kept.visits.find(({ id }) => id === entry.key)?.hasLog ?? false;
    if (entry.file === null) await kept.open(entry.key);
    for await (const visit of entry.file === null ? [] : archivedVisits([entry.file])) {
      if ("problem" in visit) continue;
      hasLog = visit.files.length > 0;
      await kept.take(visit.name, visit.text, visit.files, true);
    }
    // Without its log a visit cannot stand on the page: it is read among the kept ones.
    if (!hasLog) dispatch({ do: "open-sheet", sheet: "visits" });
  };
  const problems = opened.flatMap(({ problem }) => problem ?? []);
  const paper = units.pressure === "psi" ? "Letter" : "A4";
  return (
    <div className="round">
      <p>{ROUND_WORDS.intro}</p>
      <RoundTools choice={choice} onChoice={setChoice} onFiles={(files) => void openFiles(files)} />
      <p className="button-row">
        <button type="button" disabled={shown.length === 0} onClick={() => saveAsFile("round.csv", "text/csv", roundCsv(shown, now))}>
          {ROUND_WORDS.saveCsv}
        </button>
        <button
          type="button"
          disabled={shown.length === 0}
          onClick={() => saveAsFile("round.html", "text/html", roundSummary(shown, now, paper, preferences.units.locale))}
        >
          {ROUND_WORDS.saveSummary}
        </button>
        <button type="button" disabled={shown.length === 0} onClick={() => window.print()}>
          {ROUND_WORDS.print}
        </button>
      </p>
      {problems.length > 0 && <Problems problems={problems} />}
      <p role="status">{said === "" ? sayCount(rows.length, shown.length, rows.filter(({ weight }) => weight > 0).length, twice) : said}</p>
      {shown.length > 0 && <RoundTable rows={shown} now={now} units={units} onOpen={(entry) => void openVisit(entry)} />}
    </div>
  );
}

function useRows(visits: PageProps["kept"]["visits"], opened: readonly OpenedFile[], units: UnitChoice) {
  const [today] = useState(() => withCompanyLimits(NO_SITE_FACTS, keptCompanyLimits()));
  return useMemo(() => {
    const { entries, twice } = eachOnce([...visits.flatMap(fromStored), ...opened.flatMap((file) => file.entries)]);
    return { rows: roundRows(entries, today, units), twice };
  }, [visits, opened, today, units]);
}

const useArranged = (rows: ReturnType<typeof roundRows>, { order, search, filter }: RoundChoice) =>
  useMemo(() => arrange(rows, order, search, filter), [rows, order, search, filter]);

const sayCount = (all: number, shown: number, urgent: number, twice: number): string =>
  all === 0 ? ROUND_WORDS.none : ROUND_WORDS.count(shown, all, urgent, twice);

const MOST_PROBLEMS = 10;

function Problems({ problems }: { readonly problems: readonly string[] }) {
  return (
    <ul>
      {problems.slice(0, MOST_PROBLEMS).map((problem) => (
        <li key={problem}>{problem}</li>
      ))}
      {problems.length > MOST_PROBLEMS && <li>{ROUND_WORDS.moreProblems(problems.length - MOST_PROBLEMS)}</li>}
    </ul>
  );
}
