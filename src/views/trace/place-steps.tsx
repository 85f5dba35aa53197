import { useState } from "react";
import { BAND_WORDS } from "../../../shared/wording/band";
import { TRACE_WORDS } from "../../../shared/wording/trace";
import { type Band, type BandPlace, neighbour } from "../../charts/bands";
import type { TraceModel } from "./trace-model";

type StepsProps = { readonly model: TraceModel; readonly bands: readonly Band[]; readonly onPlace: (band: Band, place: BandPlace) => void };

/** Steps from place to place of all bands, or of one. */
export function PlaceSteps({ model, bands, onPlace }: StepsProps) {
  const [kind, setKind] = useState("any");
  const [end, setEnd] = useState("");
  if (bands.length === 0) return null;
  function step(direction: 1 | -1): void {
    const { from, to } = model.window.get();
    const chosen = bands.filter((band) => kind === "any" || band.kind === kind);
    const found = neighbour(chosen, model.cursor.get() ?? (from + to) / 2, direction);
    setEnd(found !== null ? "" : direction === 1 ? TRACE_WORDS.atLast : TRACE_WORDS.atFirst);
    if (found !== null) onPlace(found.band, found.place);
  }
  return (
    <span className="tool-group">
      <button type="button" onClick={() => step(-1)}>
        {TRACE_WORDS.previous}
      </button>
      <button type="button" onClick={() => step(1)}>
        {TRACE_WORDS.next}
      </button>
      <select aria-label={TRACE_WORDS.stepThrough} value={kind} onChange={(event) => setKind(event.target.value)}>
        <option value="any">{TRACE_WORDS.anyPlace}</option>
        {bands.map((band) => (
          <option key={band.kind} value={band.kind}>
            {BAND_WORDS[band.kind].title.toLowerCase()}
          </option>
        ))}
      </select>
      <span role="status">{end}</span>
    </span>
  );
}
