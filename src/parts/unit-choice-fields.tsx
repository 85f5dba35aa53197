import { METRIC_UNITS, UNIT_OPTIONS, type UnitChoice, US_UNITS } from "../../shared/units/unit-choice";
import { sayUnit, UNIT_QUANTITY_WORDS } from "../../shared/wording/unit-choice";
import { ChoiceField } from "./choice-field";

type Props = { readonly units: UnitChoice; readonly onChange: (units: UnitChoice) => void };
type Kind = keyof typeof UNIT_OPTIONS;
const KINDS: readonly Kind[] = ["pressure", "flow", "volume", "length", "temperature", "power"];

/** The units one person reads in, one select a quantity, and the two usual sets at a click. */
export function UnitChoiceFields({ units, onChange }: Props) {
  return (
    <fieldset className="unit-choice">
      <legend>Units to read in</legend>
      <p className="button-row">
        <button type="button" onClick={() => onChange({ ...US_UNITS, locale: units.locale })}>
          Take US units
        </button>
        <button type="button" onClick={() => onChange({ ...METRIC_UNITS, locale: units.locale })}>
          Take metric units
        </button>
      </p>
      <div className="field-grid">
        {KINDS.map((kind) => (
          <ChoiceField
            key={kind}
            label={UNIT_QUANTITY_WORDS[kind]}
            value={units[kind]}
            options={UNIT_OPTIONS[kind].map((unit) => ({ value: unit, text: sayUnit(kind, unit) }))}
            onChange={(unit) => onChange(withUnit(units, kind, unit))}
          />
        ))}
      </div>
    </fieldset>
  );
}

/** The choice with one unit changed; an unknown unit changes nothing. */
export function withUnit(units: UnitChoice, kind: Kind, unit: string): UnitChoice {
  const known: readonly string[] = UNIT_OPTIONS[kind];
  return known.includes(unit) ? { ...units, [kind]: unit } : units;
}
