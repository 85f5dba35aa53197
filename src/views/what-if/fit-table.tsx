import { DRIVE_PARAMETERS, PARAMETER_IDS } from "../../../shared/findings/what-if";
import { formatFigures, formatQuantity } from "../../../shared/units/format-quantity";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { PARAMETER_NAMES, sayOrigin, WHAT_IF_WORDS } from "../../../shared/wording/what-if";
import type { ModelRun } from "../../worker/model-run";

type Props = { readonly run: Extract<ModelRun, { state: "run" }>; readonly units: UnitChoice };

/** What the model was fitted with: each parameter with its interval and where it comes from. */
export function FitTable({ run, units }: Props) {
  const explained =
    run.explained === null
      ? WHAT_IF_WORDS.notRun
      : WHAT_IF_WORDS.explains(formatQuantity(Math.max(0, run.explained), "fraction", units, 2));
  return (
    <details>
      <summary>{WHAT_IF_WORDS.fitted}</summary>
      <p>{explained}</p>
      <div className="wide-table">
        <table>
          <tbody>
            {PARAMETER_IDS.filter((id) => run.isDrive || !DRIVE_PARAMETERS.includes(id)).map((id) => {
              const { value, low, high, from } = run.parameters[id];
              const { name, shown } = PARAMETER_NAMES[id];
              const say = (x: number) => (shown === "none" ? formatFigures(x, 3, units.locale) : formatQuantity(x, shown, units));
              return (
                <tr key={id}>
                  <th scope="row">{name}</th>
                  <td>{WHAT_IF_WORDS.between(say(value), say(low), say(high))}</td>
                  <td>{sayOrigin(from)}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
    </details>
  );
}
