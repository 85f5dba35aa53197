import { ImportError } from "../../shared/problems/import-problem";
import { assembleDevices } from "./assemble-devices";
import { assembleLong } from "./assemble-long";
import { assembleWide, columnNotes } from "./assemble-wide";
import { readAcrossBody, readBody, readDeviceBody, readLongBody, type Watch } from "./body/read-body";
import { describeLayout } from "./describe-layout";
import type { FilePart } from "./file-part";
import type { ImportChoices, LogFile } from "./import-log";
import { combineGroups } from "./join/combine-groups";
import { dropLateSentinels } from "./late-sentinels";
import { makePlan } from "./make-plan";
import type { TimedGroup } from "./own-times";
import { refuseUnreadable } from "./refuse";
import { surveyFile } from "./survey";
import type { TablePlan } from "./table-plan";

/** Reads one file by itself. @throws ImportError where it cannot be read as a log */
export async function readFile(file: LogFile, choices: ImportChoices, watch: Watch): Promise<FilePart> {
  const survey = await surveyFile(file);
  refuseUnreadable(file, survey);
  const { plan, questions, head } = makePlan(file.name, survey, choices);
  const known = { file, plan, questions, choices, marks: [] };
  if (plan.long !== null) {
    const body = await readLongBody(file, survey, plan, plan.long, watch);
    refuseEmpty(file, plan, body.store.count);
    return assembleLong({ ...known, layout: describeLayout(plan, survey, head, body) }, body.store, body.log);
  }
  if (plan.devices !== null) {
    const body = await readDeviceBody(file, survey, plan, plan.devices.key, watch);
    refuseEmpty(file, plan, body.store.count);
    return assembleDevices({ ...known, layout: describeLayout(plan, survey, head, body) }, body.store, body.log, plan.devices.key);
  }
  if (plan.across !== null) {
    const { store, log, lastLine } = await readAcrossBody(file, survey, plan, plan.across, watch);
    refuseEmpty(file, plan, store.count);
    const one = planOfOne(plan);
    const layout = describeLayout(one, survey, head, { store: store.samples, log, lastLine });
    return { ...assembleWide({ ...known, plan: one, layout }, store.samples, log), columns: columnNotes(plan) };
  }
  const parts: FilePart[] = [];
  for (const group of plan.groups ?? [null]) {
    const own = group === null ? plan : planOfGroup(plan, group);
    const body = await readBody(file, survey, own, watch, "bytes", choices);
    if (body.store.count === 0 && parts.length > 0) continue;
    refuseEmpty(file, plan, body.store.count);
    const marks = dropLateSentinels(
      body.store,
      own.columns.filter((column) => column.use === "number"),
    );
    const layout =
      parts[0]?.layout ??
      describeLayout(plan, survey, head, group === null ? body : { ...body, store: { count: body.store.count, push: () => {} } });
    parts.push(assembleWide({ ...known, plan: own, layout, marks }, body.store, body.log));
  }
  const [first] = parts;
  if (parts.length === 1) return first;
  return { ...combineGroups(parts, { kind: "own-times", groups: parts.length }, "shared"), columns: columnNotes(plan) };
}

/** The plan with one time column and the numbers that go by it. */
function planOfGroup(plan: TablePlan, { time, columns }: TimedGroup): TablePlan {
  const purposeOf = (index: number) => (index === time ? "time" : columns.includes(index) ? "number" : "text");
  return {
    ...plan,
    only: [time, ...columns],
    columns: plan.columns.map((column) => ({ ...column, use: purposeOf(column.index) })),
    clock: { ...plan.clock, columns: [time] },
  };
}

/** The plan with the columns that are one quantity as one column. */
function planOfOne(plan: TablePlan): TablePlan {
  const { heading = "", columns = [] as readonly number[] } = plan.across ?? {};
  const kept = plan.columns.filter(({ index }) => index === columns[0] || !columns.includes(index));
  return { ...plan, columns: kept.map((column) => (column.index === columns[0] ? { ...column, heading } : column)) };
}

function refuseEmpty(file: LogFile, plan: TablePlan, count: number): void {
  if (count > 0) return;
  throw new ImportError({ id: "no-values", file: file.name, row: plan.firstLine, headings: plan.columns.map(({ heading }) => heading) });
}
