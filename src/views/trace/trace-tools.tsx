import { useState } from "react";
import { BAND_WORDS } from "../../../shared/wording/band";
import { type Band, type BandPlace, neighbour } from "../../charts/bands";
import { localUnix } from "../../charts/time-axis";
import type { RecordOutline } from "../../worker/messages";
import type { TraceModel } from "./trace-model";
import { centred, wholeWindow, zoomed } from "./trace-window";

type ToolsProps = {
  readonly model: TraceModel;
  readonly outline: RecordOutline;
  readonly bands: readonly Band[];
  readonly elapsed: boolean;
  readonly measure: boolean;
  readonly onMeasure: (on: boolean) => void;
  readonly onEvent: (band: Band, place: BandPlace) => void;
};

/** What can be done with the trace, in words. */
export function TraceTools({ model, outline, bands, elapsed, measure, onMeasure, onEvent }: ToolsProps) {
  const [kind, setKind] = useState("any");
  const [end, setEnd] = useState("");
  const zoom = (factor: number) => {
    const window = model.window.get();
    model.moveTo(zoomed(window, factor, (window.from + window.to) / 2, model.duration));
  };
  function jump(direction: 1 | -1): void {
    const { from, to } = model.window.get();
    const chosen = bands.filter((band) => kind === "any" || band.kind === kind);
    const at = model.cursor.get() ?? (from + to) / 2;
    const found = neighbour(chosen, at, direction);
    setEnd(found === null ? (direction === 1 ? "That was the last one." : "That was the first one.") : "");
    if (found !== null) onEvent(found.band, found.place);
  }
  return (
    <div className="trace-tools small" role="toolbar" aria-label="Trace">
      <button type="button" onClick={() => model.moveTo(wholeWindow(model.duration))}>
        Whole record
      </button>
      <button type="button" onClick={() => zoom(0.5)}>
        Closer
      </button>
      <button type="button" onClick={() => zoom(2)}>
        Wider
      </button>
      <button type="button" aria-pressed={measure} onClick={() => onMeasure(!measure)}>
        Measure
      </button>
      {bands.length > 0 && (
        <span className="tool-group">
          <button type="button" onClick={() => jump(-1)}>
            Previous
          </button>
          <button type="button" onClick={() => jump(1)}>
            Next
          </button>
          <select aria-label="Which places to step through" value={kind} onChange={(event) => setKind(event.target.value)}>
            <option value="any">any place</option>
            {bands.map((band) => (
              <option key={band.kind} value={band.kind}>
                {BAND_WORDS[band.kind].title.toLowerCase()}
              </option>
            ))}
          </select>
        </span>
      )}
      <GoTo model={model} outline={outline} elapsed={elapsed} />
      <span role="status">{end}</span>
    </div>
  );
}

type GoToProps = Pick<ToolsProps, "model" | "outline" | "elapsed">;

/** A time to go to: a date and time of the site's clock, or hours since the record began. */
function GoTo({ model, outline, elapsed }: GoToProps) {
  const { clock } = outline;
  const go = (t: number) => {
    if (!Number.isFinite(t)) return;
    model.moveTo(centred(model.window.get(), t, model.duration));
    model.cursor.set(Math.min(model.duration, Math.max(0, t)));
  };
  if (clock.kind === "elapsed" || elapsed) {
    return (
      <label className="tool-group">
        Go to hour
        <input type="number" min="0" max={model.duration / 3600} step="any" onChange={(event) => go(event.target.valueAsNumber * 3600)} />
      </label>
    );
  }
  const local = (t: number) => new Date(localUnix(t, clock) * 1000).toISOString().slice(0, 16);
  return (
    <label className="tool-group">
      Go to
      <input
        type="datetime-local"
        defaultValue={local(0)}
        min={local(0)}
        max={local(model.duration)}
        onChange={(event) => go(event.target.valueAsNumber / 1000 - localUnix(0, clock))}
      />
    </label>
  );
}
