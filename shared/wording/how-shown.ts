/** Units, light and clock of this person. */
export const HOW_SHOWN = {
  units: "Units",
  unitOf: { pressure: "Pressure", flow: "Flow", volume: "Volume", length: "Length", temperature: "Temperature", power: "Power" },
  light: "Light",
  lights: { device: "As this device", paper: "Paper", night: "Night", sunlight: "Bright sunlight" },
  time: "Time on the trace",
  clocks: { local: "Clock time of the site", elapsed: "Time since the record began" },
} as const;

/** Units whose symbol alone leaves a doubt. */
const UNIT_NAMES: Readonly<Record<string, string>> = {
  gpm: "gpm (US)",
  "imp gpm": "gpm (imperial)",
  gal: "gal (US)",
  "imp gal": "gal (imperial)",
};
export const unitName = (symbol: string): string => UNIT_NAMES[symbol] ?? symbol;
