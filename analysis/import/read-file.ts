import { ImportError } from "../../shared/problems/import-problem";
import { assembleLong } from "./assemble-long";
import { assembleWide } from "./assemble-wide";
import { readBody, readLongBody, type Watch } from "./body/read-body";
import { describeLayout } from "./describe-layout";
import type { FilePart } from "./file-part";
import type { ImportChoices, LogFile } from "./import-log";
import { makePlan } from "./make-plan";
import { refuseUnreadable } from "./refuse";
import { surveyFile } from "./survey";

/** Reads one file by itself. @throws ImportError where it cannot be read as a log */
export async function readFile(file: LogFile, choices: ImportChoices, watch: Watch): Promise<FilePart> {
  const survey = await surveyFile(file);
  refuseUnreadable(file, survey);
  const { plan, questions, head } = makePlan(file.name, survey, choices);
  const body = plan.long === null ? await readBody(file, survey, plan, watch) : await readLongBody(file, survey, plan, plan.long, watch);
  if (body.store.count === 0) {
    throw new ImportError({ id: "no-values", file: file.name, row: plan.firstLine, headings: plan.columns.map(({ heading }) => heading) });
  }
  const layout = describeLayout(plan, survey, head, body);
  const known = { file, plan, questions, layout, choices };
  return "channels" in body.store ? assembleLong(known, body.store, body.log) : assembleWide(known, body.store, body.log);
}
