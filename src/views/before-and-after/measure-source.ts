import type { NamedMeasures } from "../../../shared/findings/comparison";
import type { ImportProblem } from "../../../shared/problems/import-problem";
import { readVisitFile } from "../../../shared/schemas/visit-file";
import { COMPARISON_WORDS } from "../../../shared/wording/comparison";
import type { Commands } from "../../state/use-visit";
import { choicesOf } from "../../storage/visit-form";
import { loadVisit } from "../../storage/visit-store";
import type { PickedFile } from "../../worker/messages";
import { toSiteEntry } from "../site-facts/entries";

/** Where one side of a comparison comes from. */
export type Source =
  | { readonly from: "page"; readonly name: string }
  | { readonly from: "kept"; readonly id: string }
  | { readonly from: "log"; readonly files: readonly PickedFile[] };

export type Measured = NamedMeasures | { readonly refused: string | ImportProblem };

/** What a comparison needs of a visit: as it was kept, else worked out of its log, which takes a moment. */
export function measuresFrom(source: Source, commands: Commands): Promise<Measured> {
  switch (source.from) {
    case "page":
      return ofPage(source.name, commands);
    case "kept":
      return ofKept(source.id, commands);
    case "log":
      return ofLog(source.files.map(({ name }) => name).join(", "), source.files, commands);
  }
}

async function ofPage(name: string, commands: Commands): Promise<Measured> {
  const measures = await commands.measures();
  return measures === null ? { refused: COMPARISON_WORDS.recordGone } : { name, measures };
}

async function ofKept(id: string, commands: Commands): Promise<Measured> {
  const loaded = await loadVisit(id);
  const visit = loaded === null ? null : readVisitFile(loaded.text).visit;
  if (loaded === null || visit === null) return { refused: COMPARISON_WORDS.notKept };
  const name = `${loaded.visit.title} (${loaded.visit.files.join(", ")})`;
  if (visit.measures !== null) return { name, measures: visit.measures };
  if (loaded.log.length > 0) return ofLog(name, loaded.log, commands, { choices: choicesOf(visit), site: toSiteEntry(visit.site ?? {}) });
  return { refused: COMPARISON_WORDS.nothingToCompare(loaded.visit.title) };
}

async function ofLog(
  name: string,
  files: readonly PickedFile[],
  commands: Commands,
  kept?: Parameters<Commands["measuresOf"]>[1],
): Promise<Measured> {
  const answer = await commands.measuresOf(files, kept);
  if (!("answer" in answer)) return { name, measures: answer };
  if (answer.answer === "refused") return { refused: answer.problem };
  if (answer.answer === "broken") return { refused: COMPARISON_WORDS.defect(name, answer.message) };
  return { refused: COMPARISON_WORDS.stopped };
}
