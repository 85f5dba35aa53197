import { ImportError } from "../../shared/problems/import-problem";
import { assembleWide, columnNotes, type KnownFile } from "./assemble-wide";
import type { DeviceStore } from "./body/device-store";
import type { RowLog } from "./body/row-log";
import { deviceQuestion } from "./devices";
import type { FilePart } from "./file-part";
import { combineGroups } from "./join/combine-groups";
import { dropLateSentinels } from "./late-sentinels";
import type { TablePlan } from "./table-plan";

const ALL = "all";

/** Rows of several devices in one table: each device has its own instants, and channels that are called after it. */
export function assembleDevices(known: KnownFile, store: DeviceStore, log: RowLog, key: number): FilePart {
  const { plan, choices } = known;
  const names = [...store.devices.keys()];
  const { heading } = plan.columns[key];
  const answer = choices.answers.device ?? ALL;
  if (answer !== ALL && !store.devices.has(answer))
    throw new ImportError({ id: "unknown-answer", question: "device", answer, options: [ALL, ...names] });
  const parts = [...store.devices].flatMap(([name, rows]) => {
    if (answer !== ALL && answer !== name) return [];
    const own = planOf(plan, name);
    const marks = dropLateSentinels(
      rows,
      own.columns.filter(({ use }) => use === "number"),
    );
    return [assembleWide({ ...known, plan: own, marks }, rows, log)];
  });
  const note = {
    kind: "devices",
    text:
      answer === ALL
        ? `Rows of ${names.length} devices or places stand in one table; they are told apart by "${heading}".`
        : `Only the rows of ${answer} by "${heading}" are read; those of ${names.length - 1} others are left out.`,
  };
  const questions = choices.answers.device === undefined ? [deviceQuestion(heading, names)] : [];
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
