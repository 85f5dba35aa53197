import { ImportError } from "../../shared/problems/import-problem";
import type { Channel, RowOrigin } from "../../shared/record/log-record";
import { seconds } from "../../shared/units/quantity";
import { type Body, readBody, type Watch } from "./body/read-body";
import type { Samples } from "./body/row-store";
import { settleClock } from "./clock/settle-clock";
import { describeLayout } from "./describe-layout";
import type { FilePart } from "./file-part";
import { findGaps, findSampling } from "./find-sampling";
import type { ImportChoices, LogFile } from "./import-log";
import { makePlan } from "./make-plan";
import { refuseUnreadable } from "./refuse";
import { surveyFile } from "./survey";
import type { PlannedColumn, TablePlan } from "./table-plan";

/** Reads one file by itself. @throws ImportError where it cannot be read as a log */
export async function readFile(file: LogFile, choices: ImportChoices, watch: Watch): Promise<FilePart> {
  const survey = await surveyFile(file);
  refuseUnreadable(file, survey);
  const { plan, questions, head } = makePlan(file.name, survey, choices);
  const body = await readBody(file, survey, plan, watch);
  if (body.store.count === 0)
    throw new ImportError({
      id: "no-values",
      file: file.name,
      row: plan.firstLine,
      headings: plan.columns.map((column) => column.heading),
    });
  return assemble(file, plan, questions, body, describeLayout(plan, survey, head, body), choices);
}

function assemble(
  file: LogFile,
  plan: TablePlan,
  questions: FilePart["questions"],
  { store, log }: Body,
  layout: FilePart["layout"],
  choices: ImportChoices,
): FilePart {
  const settled = settleClock(store.raw.subarray(0, store.count), plan.clock, choices);
  const { times, order } = settled;
  const numbers = plan.columns.filter((column) => column.use === "number");
  const onChange = numbers.some((column) => column.reading.onChange);
  const sampling = findSampling(times, onChange);
  const channels = numbers.map((column, i): Channel => channel(column, sampling, inOrder(store.values[i], store.count, order)));
  const origins: RowOrigin[] = [{ file: file.name, sampling, lines: store.lines.lines(order) }];
  const clockRejects = settled.rejected.map(({ row, why }) => ({ file: file.name, row: store.lines.at(row), why }));
  return {
    file: { name: file.name, bytes: file.bytes, sha256: file.sha256 },
    clock: settled.clock,
    duration: times[times.length - 1] ?? 0,
    channels,
    columns: plan.columns.map(({ heading, index, reading, use }) => ({
      heading,
      index,
      role: use === "time" ? "time" : use === "text" ? "other" : reading.role,
      unit: reading.unit,
    })),
    origins,
    rows: {
      accepted: times.length,
      rejected: log.rejected + clockRejects.length,
      duplicate: settled.duplicates,
      reordered: settled.reordered,
    },
    rejects: [...log.rejects, ...clockRejects].sort((a, b) => a.row - b.row).slice(0, 100),
    questions: [...questions, ...settled.questions],
    notes: [...settled.notes, ...log.notes()],
    faults: [...settled.faults, ...(onChange ? [] : findGaps(times)), ...restarts(log.restarts, times, order)],
    layout,
  };
}

function channel({ heading, index, reading }: PlannedColumn, sampling: Channel["sampling"], values: Samples): Channel {
  const { role, position, unit, quantity, certainty, reason } = reading;
  return { heading, index, role, position, unitInFile: unit, quantity, sampling, values, certainty, reason };
}

/** The kept rows in order of time; the very buffer where all are kept. */
function inOrder(values: Samples, count: number, order: Uint32Array | null): Samples {
  if (order === null) return values.length === count ? values : values.slice(0, count);
  const sorted = values instanceof Float64Array ? new Float64Array(order.length) : new Float32Array(order.length);
  for (let i = 0; i < order.length; i++) sorted[i] = values[order[i]];
  return sorted;
}

/** Where the headings were written again: the logger was started anew. Only where the rows stand in their order. */
function restarts(rows: readonly number[], times: Float64Array, order: Uint32Array | null): FilePart["faults"] {
  if (order !== null) return [];
  return rows.flatMap((row) =>
    row > 0 && row < times.length
      ? [
          {
            kind: "restart" as const,
            channel: null,
            from: seconds(times[row - 1]),
            to: seconds(times[row]),
            note: "the logger wrote its headings again",
          },
        ]
      : [],
  );
}
