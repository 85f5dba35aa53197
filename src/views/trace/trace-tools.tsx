import { TRACE_WORDS } from "../../../shared/wording/trace";
import type { Band } from "../../charts/bands";
import type { Strip } from "../../charts/strips";
import { useObserved } from "./observable";
import { PlaceStepButtons } from "./place-steps";
import type { TraceLayout } from "./trace-layout";
import type { TraceModel } from "./trace-model";
import { wholeWindow, zoomed } from "./trace-window";
import type { PlaceSteps } from "./use-place-steps";

type ToolsProps = {
  readonly model: TraceModel;
  readonly bands: readonly Band[];
  readonly strips: readonly Strip[];
  readonly stripIndex: number;
  readonly layout: TraceLayout;
  /** On a page that is low as well as narrow the choice of what is drawn stands under the picture, or the tools would take its place. */
  readonly choiceBelow: boolean;
  readonly measure: boolean;
  readonly onMeasure: (on: boolean) => void;
  readonly steps: PlaceSteps;
  readonly onLarge: (large: boolean) => void;
  readonly onStrip: (index: number) => void;
};

/** What can be done with the trace, in words. Pinned on a narrow page it keeps to the few that fit. */
export function TraceTools(props: ToolsProps) {
  const { model, layout, measure } = props;
  const zoom = (factor: number) => () => {
    const window = model.window.get();
    model.moveTo(zoomed(window, factor, (window.from + window.to) / 2, model.extent));
  };
  const isPinned = layout.kind === "pinned";
  return (
    <fieldset className="trace-tools small" aria-label={TRACE_WORDS.tools}>
      <button type="button" onClick={() => model.moveTo(wholeWindow(model.duration))}>
        {TRACE_WORDS.whole}
      </button>
      <button type="button" onClick={zoom(0.5)}>
        {TRACE_WORDS.closer}
      </button>
      <button type="button" onClick={zoom(2)}>
        {TRACE_WORDS.wider}
      </button>
      {layout.kind !== "beside" && (
        <button type="button" aria-expanded={!isPinned} onClick={() => props.onLarge(isPinned)}>
          {isPinned ? TRACE_WORDS.larger : TRACE_WORDS.smaller}
        </button>
      )}
      {isPinned && !props.choiceBelow && <StripChoice {...props} />}
      {(layout.isRoomy || !isPinned) && (
        <>
          <button type="button" aria-pressed={measure} onClick={() => props.onMeasure(!measure)}>
            {TRACE_WORDS.measure}
          </button>
          <FitHeight model={model} />
          <PlaceStepButtons bands={props.bands} steps={props.steps} />
        </>
      )}
    </fieldset>
  );
}

/** Which of the strips is drawn where there is room for one. */
export function StripChoice({ strips, stripIndex, onStrip }: Pick<ToolsProps, "strips" | "stripIndex" | "onStrip">) {
  if (strips.length < 2) return null;
  return (
    <select aria-label={TRACE_WORDS.drawn} value={stripIndex} onChange={(event) => onStrip(Number(event.target.value))}>
      {strips.map((strip, i) => (
        <option key={strip.channels.join(" ")} value={i}>
          {strip.title}
        </option>
      ))}
    </select>
  );
}

function FitHeight({ model }: Pick<ToolsProps, "model">) {
  const fits = useObserved(model.fitHeight);
  return (
    <button type="button" aria-pressed={fits} onClick={() => model.fitHeight.set(!fits)}>
      {TRACE_WORDS.fitHeights}
    </button>
  );
}
