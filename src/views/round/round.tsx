import { useEffect, useId, useMemo, useState } from "react";
import { saveAsFile } from "../../parts/save-as-file";
import { listVisits } from "../../storage/visit-store";
import { fromVisitText, type OpenedFile, type RoundEntry, readRoundFile } from "./round-entry";
import { roundCsv } from "./round-export";
import { arrange, type RoundOrder, roundRows } from "./round-rows";
import { RoundTable } from "./round-table";
import "./round.css";

const ORDERS: readonly (readonly [RoundOrder, string])[] = [
  ["attention", "what needs attention first"],
  ["last-visit", "latest record first"],
  ["starts", "most starts in an hour"],
  ["short-cycles", "most short cycles"],
  ["site", "name of the site"],
];

/** Every visit kept in this browser, and those of a folder that is opened: what needs attention first, and why. */
export function Round({ now, onOpen }: { readonly now: number; readonly onOpen: (id: string) => void }) {
  const kept = useKeptEntries();
  const [opened, setOpened] = useState<readonly OpenedFile[]>([]);
  const [order, setOrder] = useState<RoundOrder>("attention");
  const [search, setSearch] = useState("");
  const [onlyBroken, setOnlyBroken] = useState(false);
  const ids = { files: useId(), order: useId(), search: useId() };
  const rows = useMemo(() => roundRows([...kept, ...opened.flatMap(({ entries }) => entries)]), [kept, opened]);
  const shown = useMemo(() => arrange(rows, order, search, onlyBroken), [rows, order, search, onlyBroken]);
  const open = async (files: FileList | null) =>
    setOpened(await Promise.all([...(files ?? [])].map(async (file) => readRoundFile(file.name, await file.text()))));
  const problems = opened.flatMap(({ problem }) => problem ?? []);
  return (
    <div className="round">
      <p>
        All visits kept in this browser. To see those of a shared folder as well, open its visit files, or the findings documents or
        findings.jsonl of a bulk run.
      </p>
      <p className="round-tools">
        <label htmlFor={ids.files}>Visit files or findings</label>
        <input id={ids.files} type="file" multiple accept=".json,.jsonl" onChange={({ target }) => void open(target.files)} />
        <label htmlFor={ids.search}>Search</label>
        <input id={ids.search} type="search" value={search} onChange={({ target }) => setSearch(target.value)} />
        <label htmlFor={ids.order}>Order</label>
        <select
          id={ids.order}
          value={order}
          onChange={({ target }) => setOrder(ORDERS.find(([id]) => id === target.value)?.[0] ?? "attention")}
        >
          {ORDERS.map(([id, words]) => (
            <option key={id} value={id}>
              {words}
            </option>
          ))}
        </select>
        <label className="choice">
          <input type="checkbox" checked={onlyBroken} onChange={({ target }) => setOnlyBroken(target.checked)} />
          Only sites that break a limit
        </label>
        <button type="button" disabled={shown.length === 0} onClick={() => saveAsFile("round.csv", "text/csv", roundCsv(shown, now))}>
          Save as CSV
        </button>
        <button type="button" disabled={shown.length === 0} onClick={() => window.print()}>
          Print
        </button>
      </p>
      {problems.length > 0 && (
        <ul>
          {problems.map((problem) => (
            <li key={problem}>{problem}</li>
          ))}
        </ul>
      )}
      <p role="status">
        {rows.length === 0
          ? "No visits yet. Each visit that is saved stands here with its latest state against its limits."
          : `${shown.length} of ${rows.length} sites, ${rows.filter(({ weight }) => weight > 0).length} need attention.`}
      </p>
      {shown.length > 0 && <RoundTable rows={shown} now={now} onOpen={onOpen} />}
    </div>
  );
}

/** Visits in the browser's store; none where it cannot be read. */
function useKeptEntries(): readonly RoundEntry[] {
  const [entries, setEntries] = useState<readonly RoundEntry[]>([]);
  useEffect(() => {
    let isWanted = true;
    listVisits().then(
      (visits) => {
        if (!isWanted) return;
        setEntries(visits.filter(({ deletedAt }) => deletedAt === null).flatMap(({ id, text }) => fromVisitText(id, text, true) ?? []));
      },
      () => {},
    );
    return () => {
      isWanted = false;
    };
  }, []);
  return entries;
}
