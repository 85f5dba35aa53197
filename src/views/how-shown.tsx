import { UNIT_OPTIONS } from "../../shared/units/unit-choice";
import { LIGHTS, type Light, type Preferences } from "../state/preferences";

type HowShownProps = { readonly preferences: Preferences; readonly change: (change: Partial<Preferences>) => void };

const UNIT_NAMES = {
  pressure: "Pressure",
  flow: "Flow",
  volume: "Volume",
  length: "Length",
  temperature: "Temperature",
  power: "Power",
} as const;
const LIGHT_NAMES: Readonly<Record<Light, string>> = {
  device: "As this device",
  paper: "Paper",
  night: "Night",
  sunlight: "Bright sunlight",
};
const UNIT_WORDS: Readonly<Record<string, string>> = {
  gpm: "gpm (US)",
  "imp gpm": "gpm (imperial)",
  gal: "gal (US)",
  "imp gal": "gal (imperial)",
  m: "m",
};

/** Units, light and clock, kept for this person in this browser. */
export function HowShown({ preferences, change }: HowShownProps) {
  const { units } = preferences;
  const names = ["pressure", "flow", "volume", "length", "temperature", "power"] as const;
  return (
    <>
      <fieldset className="choices">
        <legend>Units</legend>
        {names.map((name) => (
          <label key={name}>
            {UNIT_NAMES[name]}
            <select value={units[name]} onChange={(event) => change({ units: { ...units, [name]: event.target.value } })}>
              {UNIT_OPTIONS[name].map((unit) => (
                <option key={unit} value={unit}>
                  {UNIT_WORDS[unit] ?? unit}
                </option>
              ))}
            </select>
          </label>
        ))}
      </fieldset>
      <fieldset className="choices">
        <legend>Light</legend>
        {LIGHTS.map((light) => (
          <label key={light} className="choice">
            <input type="radio" name="light" checked={preferences.light === light} onChange={() => change({ light })} />
            {LIGHT_NAMES[light]}
          </label>
        ))}
      </fieldset>
      <fieldset className="choices">
        <legend>Time on the trace</legend>
        <label className="choice">
          <input type="radio" name="clock" checked={preferences.clock === "local"} onChange={() => change({ clock: "local" })} />
          Clock time of the site
        </label>
        <label className="choice">
          <input type="radio" name="clock" checked={preferences.clock === "elapsed"} onChange={() => change({ clock: "elapsed" })} />
          Time since the record began
        </label>
      </fieldset>
    </>
  );
}
