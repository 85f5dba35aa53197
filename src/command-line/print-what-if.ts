import { cautionsOfChanges } from "../../analysis/advice/cautions-of-changes";
import { mayBreak } from "../../analysis/model/what-if/search";
import { type Change, DRIVE_PARAMETERS, MEASURE_IDS, type MeasureId, PARAMETER_IDS } from "../../shared/findings/what-if";
import { formatQuantity, formatRange } from "../../shared/units/format-quantity";
import type { UnitChoice } from "../../shared/units/unit-choice";
import { sayCaution } from "../../shared/wording/caution";
import { PREDICTION_WORDS } from "../../shared/wording/summary";
import {
  MEASURE_NAMES,
  PARAMETER_NAMES,
  sayChange,
  sayOrigin,
  sayProposal,
  sayWhatIfWarning,
  WHAT_IF_WORDS,
} from "../../shared/wording/what-if";
import type { WhatIfReport } from "./what-if";

/** The prediction as a page of text: changes, warnings first, measures before and after, what the model was fitted with. */
export function printWhatIf({ fitted, answer, proposal, site }: WhatIfReport, units: UnitChoice): string {
  const { changes, warnings } = answer;
  const isDrive = fitted.frame.control === "variable-speed";
  const lines = [
    PREDICTION_WORDS.head(changes.map((change) => sayChange(change, units))),
    ...warnings.map((warning) => `! ${sayWhatIfWarning(warning, units)}`),
    ...(proposal === null ? [] : [sayProposal(proposal, mayBreak(answer.after.measures, site))]),
    ...cautionLines(changes),
    "",
    row("", ...PREDICTION_WORDS.columns),
    ...MEASURE_IDS.filter((id) => isDrive || id !== "drift-at-steady-flow").map((id) => measureRow(id, answer, units)),
    "",
    fitted.explained === null ? PREDICTION_WORDS.notRun : PREDICTION_WORDS.explains(Math.max(0, Math.round(100 * fitted.explained))),
    ...PARAMETER_IDS.filter((id) => isDrive || !DRIVE_PARAMETERS.includes(id)).map((id) => parameterRow(fitted.parameters[id], units)),
  ];
  return `${lines.join("\n")}\n`;
}

/** Before what is only reckoned here is done on site. */
function cautionLines(changes: readonly Change[]): readonly string[] {
  const cautions = cautionsOfChanges(changes);
  return cautions.length === 0 ? [] : ["", WHAT_IF_WORDS.beforeItIsDone, ...cautions.map((id) => `  - ${sayCaution(id)}`)];
}

const row = (name: string, ...cells: readonly string[]) =>
  `  ${name.padEnd(56)}${cells.map((cell) => cell.padEnd(34)).join("  ")}`.trimEnd();

function measureRow(id: MeasureId, answer: WhatIfReport["answer"], units: UnitChoice): string {
  const { name, shown } = MEASURE_NAMES[id];
  const say = (value: number) => formatQuantity(value, shown, units);
  const measured = (m: { readonly value: number; readonly low: number; readonly high: number }) =>
    say(m.low) === say(m.high) ? say(m.value) : `${say(m.value)} (${formatRange(m.low, m.high, shown, units, 3)})`;
  const seen = answer.recorded[id];
  return row(name, seen === null ? "-" : say(seen), measured(answer.now.measures[id]), measured(answer.after.measures[id]));
}

function parameterRow(parameter: WhatIfReport["fitted"]["parameters"]["gain"], units: UnitChoice): string {
  const { name, shown } = PARAMETER_NAMES[parameter.id];
  const say = (value: number) => (shown === "none" ? value.toPrecision(3) : formatQuantity(value, shown, units));
  return `  ${name.padEnd(56)}${say(parameter.value)} ${PREDICTION_WORDS.interval(say(parameter.low), say(parameter.high))}, ${sayOrigin(parameter.from)}`;
}

/** Times, recorded, modelled and predicted pressure: s and Pa gauge. */
export function traceCsv({ fitted, answer }: WhatIfReport): string {
  const { now, after } = answer;
  const lines = [PREDICTION_WORDS.traceHeadings.join(",")];
  let seen = 0;
  for (let i = 0; i < now.times.length; i++) {
    while (seen + 1 < fitted.trace.times.length && fitted.trace.times[seen + 1] <= now.times[i] + 1e-6) seen++;
    lines.push(
      [
        now.times[i].toFixed(1),
        fitted.trace.pressure[seen].toFixed(0),
        now.pressure[i].toFixed(0),
        after.pressure[i]?.toFixed(0) ?? "",
      ].join(","),
    );
  }
  return `${lines.join("\n")}\n`;
}
