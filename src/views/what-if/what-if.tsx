import { useCallback, useEffect, useId, useMemo, useRef, useState } from "react";
import { cautionsOfChanges } from "../../../analysis/advice/cautions-of-changes";
import { type ChangeId, MEASURE_IDS, type MeasureId } from "../../../shared/findings/what-if";
import { seconds } from "../../../shared/units/quantity";
import { cautionWords } from "../../../shared/wording/caution";
import { sayChange, sayProposal, sayWhatIfWarning, WHAT_IF_WORDS } from "../../../shared/wording/what-if";
import type { Predicted } from "../../state/visit-state";
import { Cautions } from "../next-visit/cautions";
import { SIDE_BY_SIDE } from "../trace/trace-layout";
import { useMedia } from "../use-media";
import type { StoryProps } from "../view-props";
import { AnswerTable } from "./answer-table";
import { CHANGE_GROUPS, changeScales, changesOf } from "./change-scale";
import { ChangeSlider } from "./change-slider";
import { FitTable } from "./fit-table";
import { closeUp, longStretch, type Stretch, stretchesOf } from "./stretches";
import { type Predictions, usePredictions } from "./use-predictions";
import "./what-if.css";

type Moved = ReadonlyMap<ChangeId, number>;
const NOTHING: Moved = new Map();
/** What a customer feels and the pump suffers: in sight while one drags, on any page. */
const MAIN: readonly MeasureId[] = ["starts-per-hour", "short-cycles-per-hour", "oscillation-peak-to-peak"];

/** The fitted model of this site, run again with every move of a slider; its trace lies over the recorded one. */
export function WhatIf({ visit, commands, preferences, dispatch }: StoryProps) {
  const { units } = preferences;
  const stretches = useMemo(() => stretchesOf(visit), [visit]);
  const [stretch, setStretch] = useState(stretches[0]);
  const long = useMemo(() => longStretch(visit.outline.duration, stretches[0].span), [visit, stretches]);
  const [moved, setMoved] = useState<Moved>(NOTHING);
  const [before, setBefore] = useState<Moved | null>(null);
  const changes = useMemo(() => changesOf(moved), [moved]);
  const onPredicted = useCallback((predicted: Predicted | null) => dispatch({ do: "predict", predicted }), [dispatch]);
  const { analysis } = visit;
  const predictions = usePredictions({ commands, changes, short: stretch.span, long: long.span, onPredicted });
  const proposing = useProposal(commands, long.span, (found) => put(found));
  const isBeside = useMedia(SIDE_BY_SIDE);
  useEffect(() => {
    const { from, to } = closeUp(stretch.span);
    dispatch({ do: "show-on-trace", span: { from: seconds(from), to: seconds(to) } });
  }, [stretch, dispatch]);

  const put = (next: Moved) => {
    setBefore(moved.size > 0 ? moved : null);
    setMoved(next);
  };
  const move = (id: ChangeId, to: number | null) => {
    const next = new Map(moved);
    if (to === null) next.delete(id);
    else next.set(id, to);
    setMoved(next);
    proposing.forget();
  };
  const { run, isStale } = predictions;
  const scales = useMemo(() => (run === null ? null : changeScales(run.parameters, analysis.site)), [run, analysis.site]);

  return (
    <div className="what-if">
      <p className="small">{WHAT_IF_WORDS.caution}</p>
      <p role="status" className="small">
        {sayStage(predictions)}
      </p>
      {run !== null && scales !== null && (
        <>
          <div className="what-if-answer">
            <AnswerTable run={run} measures={isBeside ? MEASURE_IDS : MAIN} units={units} isStale={isStale} />
          </div>
          {run.answer.warnings.map((warning) => (
            <p key={`${warning.id}${"change" in warning ? warning.change.id : ""}`} className="what-if-warning">
              {sayWhatIfWarning(warning, units)}
            </p>
          ))}
          <p className="button-row">
            <button type="button" disabled={proposing.isRunning} onClick={() => void proposing.ask()}>
              {WHAT_IF_WORDS.propose}
            </button>
            <button type="button" disabled={moved.size === 0} onClick={() => put(NOTHING)}>
              {WHAT_IF_WORDS.putAllBack}
            </button>
            {before !== null && moved.size === 0 && (
              <button type="button" onClick={() => put(before)}>
                {WHAT_IF_WORDS.takeBack}
              </button>
            )}
          </p>
          <p role="status" className="small">
            {proposing.said ?? ""}
          </p>
          {CHANGE_GROUPS.map(({ id, changes: own }) => (
            <fieldset key={id} className="change-group">
              <legend>{WHAT_IF_WORDS.groups[id]}</legend>
              {own.map((change) => {
                const scale = scales.get(change);
                if (scale === undefined) return null;
                return (
                  <ChangeSlider
                    key={change}
                    scale={scale}
                    moved={moved.get(change) ?? null}
                    units={units}
                    onMove={(to) => move(change, to)}
                  />
                );
              })}
            </fieldset>
          ))}
          <Cautions title={WHAT_IF_WORDS.beforeItIsDone} cautions={cautionsOfChanges(changes).map(cautionWords)} />
          <StretchChoice stretches={stretches} stretch={stretch} onStretch={setStretch} />
          <p className="small soft">{WHAT_IF_WORDS.over[long.id]}</p>
          {!isBeside && (
            <div className="wide-table">
              <AnswerTable run={run} measures={MEASURE_IDS.filter((id) => !MAIN.includes(id))} units={units} isStale={isStale} />
            </div>
          )}
          <FitTable run={run} units={units} />
          <p className="heard" role="status">
            {isStale ? "" : WHAT_IF_WORDS.done(run.answer.changes.map((change) => sayChange(change, units)))}
          </p>
        </>
      )}
    </div>
  );
}

function sayStage({ run, refused, isStale }: Predictions): string {
  if (refused !== null) return WHAT_IF_WORDS.refused[refused];
  if (run === null) return WHAT_IF_WORDS.fitting;
  return isStale ? WHAT_IF_WORDS.running : "";
}

type ChoiceProps = {
  readonly stretches: readonly Stretch[];
  readonly stretch: Stretch;
  readonly onStretch: (stretch: Stretch) => void;
};

/** Which hour the trace shows closely. */
function StretchChoice({ stretches, stretch, onStretch }: ChoiceProps) {
  const id = useId();
  if (stretches.length < 2) return null;
  return (
    <p className="stretch-choice">
      <label htmlFor={id}>{WHAT_IF_WORDS.stretch}</label>
      <select
        id={id}
        value={stretch.id}
        onChange={({ target }) => onStretch(stretches.find((own) => own.id === target.value) ?? stretches[0])}
      >
        {stretches.map((own) => (
          <option key={own.id} value={own.id}>
            {WHAT_IF_WORDS.stretches[own.id]}
          </option>
        ))}
      </select>
    </p>
  );
}

/** Looks for the smallest change that meets the limits, and sets the sliders to it. */
function useProposal(commands: StoryProps["commands"], span: Stretch["span"], onFound: (found: Moved) => void) {
  const [isRunning, setRunning] = useState(false);
  const [said, say] = useState<string | null>(null);
  const overtaken = useRef(new AbortController());
  useEffect(() => () => overtaken.current.abort(), []);
  const ask = async () => {
    overtaken.current = new AbortController();
    setRunning(true);
    say(WHAT_IF_WORDS.searching);
    const answer = await commands.runModel({ changes: [], span, search: true }, overtaken.current.signal);
    setRunning(false);
    if (answer?.state === "overtaken") return say(null);
    const proposal = answer?.state === "run" ? answer.proposal : null;
    if (proposal === null) return say(WHAT_IF_WORDS.nothingFound);
    onFound(new Map(proposal.nearest.map(({ id, to }) => [id, to])));
    say(sayProposal(proposal, answer?.state === "run" ? answer.mayBreak : []));
  };
  const forget = () => {
    overtaken.current.abort();
    say(null);
  };
  return { isRunning, said, ask, forget };
}
