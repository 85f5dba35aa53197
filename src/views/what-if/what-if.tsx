import { useId, useMemo, useState } from "react";
import { readChange } from "../../../analysis/model/what-if/changes";
import { CHANGE_KINDS, type Change, type ChangeId, MEASURE_IDS } from "../../../shared/findings/what-if";
import { formatQuantity } from "../../../shared/units/format-quantity";
import { CHANGE_NAMES, MEASURE_NAMES, sayChange, sayProposal, sayWhatIfWarning } from "../../../shared/wording/what-if";
import { ChartFrame } from "../../charts/chart-frame";
import { WideTable } from "../../parts/wide-table";
import type { ModelRun } from "../../worker/model-run";
import type { StoryProps } from "../view-props";
import { FitTable } from "./fit-table";
import { stretchesOf } from "./stretches";
import { whatIfChart } from "./what-if-chart";
import "./what-if.css";

const CHANGES = Object.keys(CHANGE_KINDS) as ChangeId[];
const EXAMPLES: Readonly<Record<(typeof CHANGE_KINDS)[ChangeId], string>> = {
  gaugePressure: "38 psi",
  volume: "40 gal",
  length: "6 ft",
  time: "60 s",
  flow: "0.2 gpm",
  ratio: "0.5",
};

type Stage = { readonly is: "waiting" } | { readonly is: "running" } | { readonly is: "done"; readonly run: ModelRun };

/** The fitted model of this site, run as it is and with changes, laid over the record. */
export function WhatIf({ visit, commands, preferences }: StoryProps) {
  const stretches = useMemo(() => stretchesOf(visit), [visit]);
  const [stretch, setStretch] = useState(stretches[0]);
  const [written, setWritten] = useState<Readonly<Partial<Record<ChangeId, string>>>>({});
  const [stage, setStage] = useState<Stage>({ is: "waiting" });
  const idOfStretch = useId();
  const read = CHANGES.flatMap((id) => ((written[id] ?? "").trim() === "" ? [] : [readChange(`${id}=${written[id]}`)]));
  const changes = read.filter((change): change is Change => "id" in change);
  const isClear = changes.length === read.length;

  const run = async (search: boolean) => {
    setStage({ is: "running" });
    const result = await commands.runModel({ changes, span: stretch.span, search });
    setStage(result === null ? { is: "waiting" } : { is: "done", run: result });
  };
  return (
    <div className="what-if">
      <p>
        A model of pump, tank, pipe and control is fitted to this record and run again with what you change. It gives a direction and a
        size, not a promise: the pressure marked on the tank and the equipment's own instructions stand above it.
      </p>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void run(false);
        }}
      >
        <label htmlFor={idOfStretch}>Stretch to run again</label>
        <select
          id={idOfStretch}
          value={stretch.id}
          onChange={({ target }) => setStretch(stretches.find(({ id }) => id === target.value) ?? stretches[0])}
        >
          {stretches.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
        <fieldset className="what-if-changes">
          <legend>Change</legend>
          {CHANGES.map((id) => (
            <ChangeField key={id} id={id} text={written[id] ?? ""} onText={(text) => setWritten({ ...written, [id]: text })} />
          ))}
        </fieldset>
        <button type="submit" disabled={stage.is === "running" || !isClear || changes.length === 0}>
          Predict
        </button>
        <button type="button" disabled={stage.is === "running"} onClick={() => void run(true)}>
          Propose the smallest change
        </button>
      </form>
      <p role="status">{stage.is === "running" ? "Running the model. The first run fits it to the record and takes longest." : ""}</p>
      {stage.is === "done" && <Answer run={stage.run} units={preferences.units} />}
    </div>
  );
}

type FieldProps = { readonly id: ChangeId; readonly text: string; readonly onText: (text: string) => void };

function ChangeField({ id, text, onText }: FieldProps) {
  const field = useId();
  const isWrong = text.trim() !== "" && !("id" in readChange(`${id}=${text}`));
  const example = EXAMPLES[CHANGE_KINDS[id]];
  return (
    <p>
      <label htmlFor={field}>{id === "gain" ? "Loop gain, times what it is" : CHANGE_NAMES[id].name}</label>
      <input
        id={field}
        value={text}
        placeholder={example}
        aria-invalid={isWrong}
        aria-describedby={isWrong ? `${field}-why` : undefined}
        onChange={({ target }) => onText(target.value)}
      />
      {isWrong && (
        <span id={`${field}-why`} className="small">
          Write it with its unit, like {example}.
        </span>
      )}
    </p>
  );
}

const REFUSED = {
  "no-model": "This log has no pressure, or does not show when the pump ran: there is nothing to fit a model to.",
  "draw-not-known": "The model cannot be run over this stretch: what was drawn is not known there. Log the flow, or the pump's speed.",
} as const;

type AnswerProps = { readonly run: ModelRun; readonly units: StoryProps["preferences"]["units"] };

function Answer({ run, units }: AnswerProps) {
  const chart = useMemo(() => (run.state === "run" ? whatIfChart(run, units) : null), [run, units]);
  if (run.state !== "run" || chart === null) return <p>{run.state === "run" ? "" : REFUSED[run.state]}</p>;
  const { answer, proposal } = run;
  const say = (id: (typeof MEASURE_IDS)[number], m: { readonly value: number; readonly low: number; readonly high: number }) => {
    const write = (value: number) => formatQuantity(value, MEASURE_NAMES[id].shown, units);
    return m.low === m.high ? write(m.value) : `${write(m.value)} (${write(m.low)} to ${write(m.high)})`;
  };
  const changed = answer.changes.length === 0 ? "Nothing is changed" : answer.changes.map((change) => sayChange(change, units)).join("; ");
  return (
    <>
      <h3>{changed}</h3>
      {proposal !== null && <p>{sayProposal(proposal)}</p>}
      {answer.warnings.map((warning) => (
        <p key={warning.id} className="what-if-warning">
          {sayWhatIfWarning(warning, units)}
        </p>
      ))}
      <ChartFrame
        spec={chart.spec}
        data={chart.data}
        height={260}
        label={`Recorded pressure, the model as it is, and the model with the change: ${changed}`}
      />
      <p className="small">Solid: recorded. Dotted: model as it is. Dashed: model with the change.</p>
      <WideTable heads={["Measure", "Recorded", "Model as it is", "Model with the change"]}>
        {MEASURE_IDS.map((id) => {
          const seen = answer.recorded[id];
          return (
            <tr key={id}>
              <th scope="row">{MEASURE_NAMES[id].name}</th>
              <td>{seen === null ? "not known" : formatQuantity(seen, MEASURE_NAMES[id].shown, units)}</td>
              <td>{say(id, answer.now.measures[id])}</td>
              <td>{say(id, answer.after.measures[id])}</td>
            </tr>
          );
        })}
      </WideTable>
      <FitTable run={run} units={units} />
    </>
  );
}
