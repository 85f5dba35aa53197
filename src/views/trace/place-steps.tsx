import { BAND_WORDS } from "../../../shared/wording/band";
import { TRACE_WORDS } from "../../../shared/wording/trace";
import type { Band } from "../../charts/bands";
import type { PlaceSteps } from "./use-place-steps";

type StepsProps = { readonly bands: readonly Band[]; readonly steps: PlaceSteps };

/** Steps from place to place of all bands, or of one. */
export function PlaceStepButtons({ bands, steps }: StepsProps) {
  if (bands.length === 0) return null;
  return (
    <span className="tool-group">
      <button type="button" onClick={() => steps.step(-1)}>
        {TRACE_WORDS.previous}
      </button>
      <button type="button" onClick={() => steps.step(1)}>
        {TRACE_WORDS.next}
      </button>
      <select aria-label={TRACE_WORDS.stepThrough} value={steps.kind} onChange={(event) => steps.choose(event.target.value)}>
        <option value="any">{TRACE_WORDS.anyPlace}</option>
        {bands.map((band) => (
          <option key={band.kind} value={band.kind}>
            {BAND_WORDS[band.kind].title.toLowerCase()}
          </option>
        ))}
      </select>
      <span role="status">{steps.end}</span>
    </span>
  );
}
