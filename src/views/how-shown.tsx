import { UNIT_OPTIONS } from "../../shared/units/unit-choice";
import { HOW_SHOWN, unitName } from "../../shared/wording/how-shown";
import { LIGHTS, type Preferences } from "../state/preferences";

type HowShownProps = { readonly preferences: Preferences; readonly change: (change: Partial<Preferences>) => void };

/** Units, light and clock, kept for this person in this browser. */
export function HowShown({ preferences, change }: HowShownProps) {
  const { units } = preferences;
  const names = ["pressure", "flow", "volume", "length", "temperature", "power"] as const;
  return (
    <>
      <fieldset className="choices">
        <legend>{HOW_SHOWN.units}</legend>
        {names.map((name) => (
          <label key={name}>
            {HOW_SHOWN.unitOf[name]}
            <select value={units[name]} onChange={(event) => change({ units: { ...units, [name]: event.target.value } })}>
              {UNIT_OPTIONS[name].map((unit) => (
                <option key={unit} value={unit}>
                  {unitName(unit)}
                </option>
              ))}
            </select>
          </label>
        ))}
      </fieldset>
      <fieldset className="choices">
        <legend>{HOW_SHOWN.light}</legend>
        {LIGHTS.map((light) => (
          <label key={light} className="choice">
            <input type="radio" name="light" checked={preferences.light === light} onChange={() => change({ light })} />
            {HOW_SHOWN.lights[light]}
          </label>
        ))}
      </fieldset>
      <fieldset className="choices">
        <legend>{HOW_SHOWN.time}</legend>
        <label className="choice">
          <input type="radio" name="clock" checked={preferences.clock === "local"} onChange={() => change({ clock: "local" })} />
          {HOW_SHOWN.clocks.local}
        </label>
        <label className="choice">
          <input type="radio" name="clock" checked={preferences.clock === "elapsed"} onChange={() => change({ clock: "elapsed" })} />
          {HOW_SHOWN.clocks.elapsed}
        </label>
      </fieldset>
    </>
  );
}
