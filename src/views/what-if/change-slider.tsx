import { type CSSProperties, useEffect, useId, useState } from "react";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { CHANGE_HELP, changeName, sayChangeValue, WHAT_IF_WORDS } from "../../../shared/wording/what-if";
import { type ChangeScale, positionOf, SLIDER_STEPS, valueAtPosition } from "./change-scale";
import { exampleOf, readTyped } from "./typed-change";

type Props = {
  readonly scale: ChangeScale;
  /** SI; null while it stays as it is. */
  readonly moved: number | null;
  readonly units: UnitChoice;
  /** Null puts it back. */
  readonly onMove: (to: number | null) => void;
};

/** One thing that can be changed: a slider with what it stands at, and the same as a value that can be typed. */
export function ChangeSlider({ scale, moved, units, onMove }: Props) {
  const id = useId();
  const value = moved ?? scale.now;
  const text = sayChangeValue(scale.id, value, units);
  const asItIs = sayChangeValue(scale.id, scale.now, units);
  const [typed, setTyped] = useState<string | null>(null);
  // What was typed stands until the value comes from somewhere else.
  // biome-ignore lint/correctness/useExhaustiveDependencies: the value is what takes it away
  useEffect(() => setTyped(null), [moved]);
  const isWrong = typed !== null && typed.trim() !== "" && readTyped(scale.id, typed, units) === null;
  const commit = () => {
    if (typed === null) return;
    if (typed.trim() === "") return onMove(null);
    const to = readTyped(scale.id, typed, units);
    if (to !== null) onMove(to);
  };
  return (
    <div className="change" data-moved={moved !== null}>
      <label htmlFor={id}>{changeName(scale.id)}</label>
      <input
        className="change-value"
        aria-label={`${changeName(scale.id)}, ${WHAT_IF_WORDS.asValue}`}
        value={typed ?? text}
        aria-invalid={isWrong}
        aria-describedby={isWrong ? `${id}-why` : undefined}
        autoComplete="off"
        spellCheck={false}
        onChange={({ target }) => setTyped(target.value)}
        onBlur={commit}
        onKeyDown={(event) => {
          if (event.key === "Enter") commit();
          if (event.key === "Escape" && typed !== null) {
            event.stopPropagation();
            setTyped(null);
          }
        }}
      />
      <span className="change-track" style={{ "--now": positionOf(scale, scale.now) / SLIDER_STEPS } as CSSProperties}>
        <input
          id={id}
          type="range"
          min={0}
          max={SLIDER_STEPS}
          value={positionOf(scale, value)}
          aria-valuetext={text}
          aria-describedby={`${id}-now`}
          onChange={({ target }) => onMove(valueAtPosition(scale, target.valueAsNumber, units))}
        />
      </span>
      <p id={`${id}-now`} className="change-now small">
        {isWrong ? (
          <span id={`${id}-why`}>{WHAT_IF_WORDS.writeIt(exampleOf(scale.id))}</span>
        ) : (
          <span className="soft">
            {WHAT_IF_WORDS.asItIs(asItIs)} {CHANGE_HELP[scale.id]}
          </span>
        )}
      </p>
      {/* Its place is kept, so that nothing moves under the finger that drags. */}
      <button
        type="button"
        className="change-back small"
        style={{ visibility: moved === null ? "hidden" : "visible" }}
        onClick={() => onMove(null)}
        aria-label={`${WHAT_IF_WORDS.putBack}: ${changeName(scale.id)}`}
      >
        {WHAT_IF_WORDS.putBack}
      </button>
    </div>
  );
}
