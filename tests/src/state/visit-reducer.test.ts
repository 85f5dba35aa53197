import { describe, expect, test } from "vitest";
import { analyse } from "../../../analysis/analyse";
import { writeFindings } from "../../../analysis/document/findings-document";
import { NO_CHOICES } from "../../../analysis/import/import-log";
import type { Analysis } from "../../../shared/findings/analysis";
import type { Finding } from "../../../shared/findings/finding";
import { NO_SITE_FACTS, readSiteFacts } from "../../../shared/site/read-site-facts";
import { seconds } from "../../../shared/units/quantity";
import { US_UNITS } from "../../../shared/units/unit-choice";
import { EMPTY_PAGE, type VisitAction, visitReducer } from "../../../src/state/visit-reducer";
import { type PageState, type ReadRecord, type SiteEntry, shownRecord, shownVisit } from "../../../src/state/visit-state";
import { channel, every, recordOf } from "../../builders/record";
import { visitFile } from "../../builders/visit-files";

const record = recordOf([channel("pressure", every(1, 100), new Float64Array(100))]);
const { channels: _channels, origins: _origins, ...outline } = record;
const question = { id: "date-order", asks: { kind: "interval" } as const, options: [], assumed: "" };
const read = (questions: number): ReadRecord => ({
  files: [],
  choices: NO_CHOICES,
  askedAt: null,
  outline: { ...outline, questions: Array.from({ length: questions }, () => question) },
  layouts: [],
  traces: [],
});
const analysis = analyse(record, NO_SITE_FACTS);
const worked: VisitAction = { do: "findings-worked-out", analysis, document: writeFindings(record, analysis, US_UNITS) };
const begin: VisitAction = { do: "start-reading", files: [], choices: NO_CHOICES };
const traceOf = (questions = 0): VisitAction => ({ do: "trace-read", read: read(questions) });

const foundOn = ({ outcomes }: Analysis): Finding => {
  for (const outcome of outcomes) if (outcome.state === "found") return outcome.finding;
  throw new Error("the record holds nothing to find");
};

const pageAfter = (...actions: readonly VisitAction[]): PageState => actions.reduce(visitReducer, EMPTY_PAGE);
const site = (name: string): SiteEntry => ({ written: { name }, facts: readSiteFacts({ name }, "") });

describe("a visit goes from stage to stage", () => {
  test("reading, working out, done", () => {
    expect(pageAfter(begin).visit.stage).toBe("reading");
    expect(pageAfter(begin, traceOf()).visit.stage).toBe("working-out");
    expect(pageAfter(begin, traceOf(), worked).visit.stage).toBe("done");
  });
  test("a file that leaves something open asks, with the whole visit shown, until that is settled", () => {
    const asking = pageAfter(begin, traceOf(2), worked);
    expect(asking.visit.stage).toBe("asking");
    expect(shownVisit(asking.visit)).not.toBeNull();
    expect(visitReducer(asking, { do: "settle-questions" }).visit.stage).toBe("done");
  });
  test("the trace stands before its findings; the story of the visit before does not stand beside it", () => {
    const second = pageAfter(begin, traceOf(), worked, begin, traceOf());
    expect(shownRecord(second.visit)).not.toBeNull();
    expect(shownVisit(second.visit)).toBeNull();
  });
});

test("what is found is told one by one, and leaves alone what was chosen on the trace meanwhile", () => {
  const [span, finding] = [{ from: seconds(3), to: seconds(9) }, foundOn(analysis)];
  const after = pageAfter(begin, traceOf(), { do: "select", selection: { finding: null, span } }, { do: "found", found: finding });
  expect(after.visit).toMatchObject({ stage: "working-out", found: [finding] });
  expect(after.selection.span).toEqual(span);
  expect(visitReducer(EMPTY_PAGE, { do: "found", found: finding })).toEqual(EMPTY_PAGE);
});

describe("the visit before comes back", () => {
  const done = [begin, traceOf(), worked] as const;
  test.each([
    ["reading is stopped", [begin, { do: "stop" }]],
    ["working out is stopped", [begin, traceOf(), { do: "stop" }]],
    ["a refusal is closed", [begin, { do: "refuse", problem: { id: "no-files" } }, { do: "stop" }]],
    ["a failure is closed", [begin, { do: "break", message: "x" }, { do: "stop" }]],
  ] as const)("when %s", (_name, actions) => {
    expect(pageAfter(...done, ...actions).visit).toMatchObject({ stage: "done", reworking: false });
  });
  test("and without one the page is empty", () => {
    expect(pageAfter(begin, { do: "stop" }).visit).toEqual({ stage: "empty" });
  });
});

test("late answers of a stopped job change nothing", () => {
  const stopped = pageAfter(begin, { do: "stop" });
  expect(visitReducer(stopped, traceOf())).toBe(stopped);
  expect(visitReducer(stopped, worked)).toBe(stopped);
});

describe("site facts", () => {
  test("that are entered ask for the findings to be worked out again, and can be undone and done again", () => {
    const entered = pageAfter(begin, traceOf(), worked, { do: "enter-site", site: site("A") }, { do: "enter-site", site: site("B") });
    expect(entered.visit).toMatchObject({ reworking: true });
    const undone = visitReducer(entered, { do: "undo" });
    expect(undone.site.written).toEqual({ name: "A" });
    expect(visitReducer(undone, { do: "redo" }).site.written).toEqual({ name: "B" });
    expect(visitReducer(undone, { do: "enter-site", site: site("C") }).history.later).toEqual([]);
  });
  test("entered while a file is read are not forgotten by its findings", () => {
    expect(pageAfter(begin, { do: "enter-site", site: site("A") }, traceOf(), worked).visit).toMatchObject({ reworking: true });
  });
  test("with nothing to undo, undoing changes nothing", () => {
    expect(visitReducer(EMPTY_PAGE, { do: "undo" })).toEqual(EMPTY_PAGE);
  });
});

test("a place of one record is not shown on the next", () => {
  const selected = pageAfter(begin, traceOf(), worked, { do: "select", selection: { finding: "drift", span: null } });
  expect(visitReducer(visitReducer(selected, begin), traceOf()).selection).toEqual({ finding: null, span: null });
});

describe("another visit takes over once its findings stand", () => {
  const other: VisitAction = { do: "start-reading", files: [{ name: "other.csv", blob: new Blob([]) }], choices: NO_CHOICES };
  const ticked = { entries: [{ step: "check-precharge", done: true, note: "" }], notes: "" };
  const first = [{ do: "enter-site", site: site("A") }, begin, traceOf(), worked, { do: "note-checklist", checklist: ticked }] as const;

  test("with nothing ticked, and with the facts of the visit before, which is said", () => {
    const after = pageAfter(...first, other, traceOf(), worked);
    expect(after.checklist.entries).toEqual([]);
    expect(after.site.written).toEqual({ name: "A" });
    expect(after.siteCarried).toBe(true);
    expect(visitReducer(after, { do: "enter-site", site: site("B") }).siteCarried).toBe(false);
  });
  test("and until then ticks stay, even where it is refused or stopped", () => {
    const refused = pageAfter(...first, other, { do: "refuse", problem: { id: "no-files" } }, { do: "stop" });
    expect(refused.checklist).toEqual(ticked);
    const stopped = pageAfter(...first, other, traceOf(), { do: "stop" });
    expect(stopped.checklist).toEqual(ticked);
  });
  test("a kept visit brings its own facts and ticks, and the visit it is compared with; the next log has none", () => {
    const before = { name: "spring.csv", measures: visitFile().measures! };
    const open: VisitAction = { do: "open-visit", files: [], choices: NO_CHOICES, site: site("kept"), checklist: ticked, before };
    const after = pageAfter(begin, traceOf(), worked, open, traceOf(), worked);
    expect(after.site.written).toEqual({ name: "kept" });
    expect(after.checklist).toEqual(ticked);
    expect(after.siteCarried).toBe(false);
    expect(after.before).toEqual(before);
    expect(pageAfter(begin, traceOf(), worked, open, traceOf(), worked, other, traceOf(), worked).before).toBeNull();
  });
  test("the same files read again keep their ticks", () => {
    const after = pageAfter(...first);
    const files = shownVisit(after.visit)?.files ?? [];
    const again = [{ do: "start-reading", files, choices: NO_CHOICES }, traceOf(), worked] as const;
    expect(again.reduce<PageState>(visitReducer, after).checklist).toEqual(ticked);
  });
});
