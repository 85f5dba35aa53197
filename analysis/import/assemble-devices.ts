import { ImportError } from "../../shared/problems/import-problem";
import type { ReadingNote } from "../../shared/wording/reading-note";
import { assembleWide, columnNotes, type KnownFile } from "./assemble-wide";
import type { DeviceStore } from "./body/device-store";
import type { RowLog } from "./body/row-log";
import { ALL_ROWS, ROWS_OF } from "./columns/column-choices";
import { deviceQuestion } from "./devices";
import type { FilePart } from "./file-part";
import { combineGroups } from "./join/combine-groups";
import { dropLateSentinels } from "./late-sentinels";
import type { TablePlan } from "./table-plan";

/** Rows of several devices in one table: each device has its own instants, and channels that are called after it. */
export function assembleDevices(known: KnownFile, store: DeviceStore, log: RowLog, key: number): FilePart {
  const { plan, choices } = known;
  const names = [...store.devices.keys()];
  const { heading } = plan.columns[key];
  const asked = deviceQuestion(heading, names);
  const given = choices.answers[asked.id];
  const answer = given === undefined || given === ALL_ROWS ? null : given.slice(ROWS_OF.length);
  if (answer !== null && !store.devices.has(answer))
    throw new ImportError({ id: "unknown-answer", question: asked.id, answer: given, options: asked.options });
  const parts = [...store.devices].flatMap(([name, rows]) => {
    if (answer !== null && answer !== name) return [];
    const own = planOf(plan, name);
    const marks = dropLateSentinels(
      rows,
      own.columns.filter(({ use }) => use === "number"),
    );
    return [assembleWide({ ...known, plan: own, marks }, rows, log)];
  });
  const note: ReadingNote =
    answer === null
      ? { kind: "devices", count: names.length, by: heading }
      : { kind: "one-device", name: answer, by: heading, others: names.length - 1 };
  const questions = given === undefined ? [asked] : [];
  const whole = combineGroups(parts, note, "apart");
  return { ...whole, columns: columnNotes(plan), questions: [...whole.questions, ...questions] };
}

/** The plan with every channel called after its device. */
const planOf = (plan: TablePlan, name: string): TablePlan => ({
  ...plan,
  columns: plan.columns.map((column) => ({
    ...column,
    heading: name === "" ? column.heading : `${name} ${column.heading}`,
    reading: { ...column.reading, position: [name, column.reading.position ?? ""].filter((word) => word !== "").join(" ") || null },
  })),
});
