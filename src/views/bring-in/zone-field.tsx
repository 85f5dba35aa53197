import { useEffect, useId, useState } from "react";
import { readZone } from "../../../analysis/import/clock/zone-text";
import type { ImportChoices } from "../../../analysis/import/import-choices";
import { ZONE_WORDS } from "../../../shared/wording/bring-in";
import { answer } from "./choices";

const ZONE = "time-zone";
type Props = {
  /** The zone the record is read in; null where nobody named one. */
  readonly zone: string | null;
  readonly choices: ImportChoices;
  readonly onChoices: (choices: ImportChoices) => void;
};

/** The zone of the logger's clock, to be set or changed; a name that no zone has is said and not taken. Blank goes back to what the file says. */
export function ZoneField({ zone, choices, onChoices }: Props) {
  const id = useId();
  const standing = choices.answers[ZONE] ?? zone ?? "";
  const [typed, setTyped] = useState(standing);
  useEffect(() => setTyped(standing), [standing]);
  const wish = typed.trim();
  const unknown = wish !== "" && readZone(wish) === null;
  const commit = () => {
    if (!unknown && wish !== standing) onChoices(answer(choices, ZONE, wish));
  };
  return (
    <div className="field zone-field">
      <label htmlFor={id}>{ZONE_WORDS.label}</label>
      <input
        id={id}
        type="text"
        spellCheck={false}
        placeholder={ZONE_WORDS.example}
        list={`${id}-zones`}
        value={typed}
        aria-invalid={unknown}
        aria-describedby={`${id}-hint`}
        onChange={(event) => setTyped(event.target.value)}
        onBlur={commit}
        onKeyDown={(event) => event.key === "Enter" && commit()}
      />
      <datalist id={`${id}-zones`}>
        {knownZones().map((name) => (
          <option key={name} value={name} />
        ))}
      </datalist>
      <p id={`${id}-hint`} className="field-hint" role="status">
        {unknown ? ZONE_WORDS.unknown : ZONE_WORDS.hint}
      </p>
    </div>
  );
}

/** The names the browser knows; older ones cannot list them. */
const knownZones = (): readonly string[] => (typeof Intl.supportedValuesOf === "function" ? Intl.supportedValuesOf("timeZone") : []);
