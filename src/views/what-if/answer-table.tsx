import type { MeasureId } from "../../../shared/findings/what-if";
import { formatQuantity, THIN_SPACE } from "../../../shared/units/format-quantity";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { PREDICTION_WORDS } from "../../../shared/wording/summary";
import { MEASURE_NAMES, MEASURE_SHORT, WHAT_IF_WORDS } from "../../../shared/wording/what-if";
import type { FinishedRun } from "./use-predictions";

type Props = { readonly run: FinishedRun; readonly measures: readonly MeasureId[]; readonly units: UnitChoice; readonly isStale: boolean };
type Spread = { readonly value: number; readonly low: number; readonly high: number };

/** What was recorded, what the model makes of it as it is, and what it makes of the change, each with its spread. */
export function AnswerTable({ run, measures, units, isStale }: Props) {
  const { answer } = run;
  const isChanged = answer.changes.length > 0;
  return (
    <table className="answer" aria-busy={isStale}>
      <caption className="heard">{WHAT_IF_WORDS.table}</caption>
      <thead>
        <tr>
          <td />
          {[WHAT_IF_WORDS.recorded, WHAT_IF_WORDS.model, WHAT_IF_WORDS.changed].map((head) => (
            <th key={head} scope="col">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {measures.map((id) => (
          <tr key={id}>
            <th scope="row">
              <span title={MEASURE_NAMES[id].name}>{MEASURE_SHORT[id]}</span>, {unitOf(id, units)}
            </th>
            <td>{answer.recorded[id] === null ? WHAT_IF_WORDS.notKnown : bare(id, answer.recorded[id], units)}</td>
            <td>
              <Value id={id} units={units} spread={answer.now.measures[id]} />
            </td>
            <td className="answer-changed">{isChanged ? <Value id={id} units={units} spread={answer.after.measures[id]} /> : "\u2013"}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Value({
  id,
  units,
  spread: { value, low, high },
}: {
  readonly id: MeasureId;
  readonly units: UnitChoice;
  readonly spread: Spread;
}) {
  const [from, to] = [bare(id, low, units), bare(id, high, units)];
  return (
    <>
      {bare(id, value, units)}
      {from === to ? null : <span className="answer-spread"> {PREDICTION_WORDS.interval(from, to)}</span>}
    </>
  );
}

/** Two figures: a model has no more. */
const written = (id: MeasureId, value: number, units: UnitChoice) => formatQuantity(value, MEASURE_NAMES[id].shown, units, 2);
const bare = (id: MeasureId, value: number, units: UnitChoice): string => written(id, value, units).split(THIN_SPACE)[0];
const unitOf = (id: MeasureId, units: UnitChoice): string => written(id, 1, units).split(THIN_SPACE).slice(1).join(" ");
