import { readChange } from "../../../analysis/model/what-if/changes";
import { CHANGE_KINDS, type ChangeId } from "../../../shared/findings/what-if";
import { scaleOf } from "../../../shared/units/format-quantity";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { CHANGE_NAMES } from "../../../shared/wording/what-if";

const EXAMPLES: Readonly<Record<(typeof CHANGE_KINDS)[ChangeId], string>> = {
  gaugePressure: "38 psi",
  volume: "40 gal",
  length: "6 ft",
  time: "60 s",
  flow: "0.2 gpm",
  ratio: "0.5",
};

/** How such a value is written. */
export const exampleOf = (id: ChangeId): string => (id === "pipe-bore" ? "1.5 in" : EXAMPLES[CHANGE_KINDS[id]]);

/** A typed value, SI; a number alone is taken in the unit shown. Null where it cannot be read. */
export function readTyped(id: ChangeId, text: string, units: UnitChoice): number | null {
  const isBare = /^\s*[\d.,\s]+\s*$/.test(text);
  const unit = CHANGE_KINDS[id] === "ratio" ? "" : scaleOf(CHANGE_NAMES[id].shown, units).symbol;
  const change = readChange(`${id}=${text.trim().replace(/^times\s+/, "")}${isBare ? ` ${unit}` : ""}`);
  return "id" in change ? change.to : null;
}
