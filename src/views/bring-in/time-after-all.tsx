import { useId, useState } from "react";
import type { ImportChoices } from "../../../analysis/import/import-choices";
import { REFUSED_WORDS } from "../../../shared/wording/bring-in";
import { ChoiceField } from "../../parts/choice-field";
import { type WayOn, withInterval, withTimeColumn } from "./way-on";

type Props = { readonly way: WayOn; readonly choices: ImportChoices; readonly onChoices: (choices: ImportChoices) => void };

/** A log without a time that anyone could find: the person says which column holds it, or how often a row was written. */
export function TimeAfterAll({ way, choices, onChoices }: Props) {
  const id = useId();
  const [heading, setHeading] = useState("");
  const [interval, setInterval] = useState("");
  const [start, setStart] = useState("");
  return (
    <div className="time-after-all">
      {way.headings.length === 0 ? null : (
        <form
          onSubmit={(event) => {
            event.preventDefault();
            onChoices(withTimeColumn(choices, heading));
          }}
        >
          <ChoiceField
            label={REFUSED_WORDS.whichTime}
            value={heading}
            options={[{ value: "", text: REFUSED_WORDS.noneOfThem }, ...way.headings.map((one) => ({ value: one, text: one }))]}
            onChange={setHeading}
          />
          <button type="submit" disabled={heading === ""}>
            {REFUSED_WORDS.withColumn}
          </button>
        </form>
      )}
      <form
        onSubmit={(event) => {
          event.preventDefault();
          onChoices(withInterval(choices, interval, start));
        }}
      >
        <div className="field-grid">
          <div className="field">
            <label htmlFor={`${id}-interval`}>{REFUSED_WORDS.howOften}</label>
            <input id={`${id}-interval`} placeholder="2 s" value={interval} onChange={(event) => setInterval(event.target.value)} />
          </div>
          <div className="field">
            <label htmlFor={`${id}-start`}>{REFUSED_WORDS.firstRow}</label>
            <input id={`${id}-start`} placeholder="2024-05-03 08:00:00" value={start} onChange={(event) => setStart(event.target.value)} />
          </div>
        </div>
        <button type="submit" disabled={interval.trim() === ""}>
          {REFUSED_WORDS.withInterval}
        </button>
      </form>
    </div>
  );
}
