/** Short explanations of trade terms, shown where they are used. In the order in which a person meets them. */
export const TERMS = {
  "set-pressure": ["Set pressure", "The pressure the drive tries to hold at its sensor by turning the pump faster or slower."],
  precharge: [
    "Precharge",
    "The air pressure in the tank with no water in it and no pressure behind it. It is read with the pump off and locked out and the water let out; read under pressure, the gauge only shows the water's pressure.",
  ],
  drawdown: [
    "Drawdown",
    "The water a tank gives between two pressures. By the gas law it is the precharge times the total volume times the difference of one over each pressure, all pressures absolute.",
  ],
  "total-volume": ["Total volume", "The whole inside of the tank, air and water together, as printed on its label."],
  "cut-in": ["Cut-in", "The pressure at which the pump starts."],
  "cut-out": ["Cut-out", "The pressure at which the pump stops."],
  "short-cycle": [
    "Short cycle",
    "A run of the pump shorter than the site's limit, one minute unless another is entered. Each start heats the motor; short runs give it no time to cool. Runs cut by a gap or an end of the log are not counted.",
  ],
  "starts-per-hour": [
    "Starts per hour",
    "The most starts that fall into any 60 minutes in a row, wherever they begin. What a motor stands depends on its power and how it is started.",
  ],
  hunting: [
    "Hunting",
    "The drive overshoots, corrects, overshoots the other way, and so on: pressure and speed swing without anyone drawing differently.",
  ],
  oscillation: [
    "Oscillation",
    "A regular swing of the pressure while the pump runs. Period is the time from crest to crest, peak-to-peak the height from trough to crest.",
  ],
  drift: [
    "Drift at steady flow",
    "How far the pressure wanders while the same amount of water is being drawn. A system in order holds still.",
  ],
  droop: ["Droop", "How much lower the pressure stands at a large draw than at a small one."],
  "leak-down": [
    "Leak-down",
    "Pressure falling while the pump rests and nobody draws. The water leaves either into the system or back through the check valve.",
  ],
  "check-valve": ["Check valve", "Lets water go out from the pump and not back. When it leaks, the pump restarts with nobody drawing."],
  "water-logged": ["Water-logged", "The tank has lost its air or its diaphragm: it is full of water and gives hardly any of it back."],
  "empties-at": [
    "Empties at",
    "The pressure at which the tank has given all its water: its true precharge, seen from the log as a knee where the pressure suddenly falls away.",
  ],
  "gas-constant": [
    "Gas constant of the tank",
    "Absolute precharge times total volume, in joules. It says how much water the tank can move, and a log of metered draws with the pump off shows it without anyone touching the tank.",
  ],
  interval: [
    "Interval",
    "The range in brackets holds the true value in 95 of 100 such logs. A wide range means the log cannot say it more closely.",
  ],
  confidence: [
    "Confidence",
    "How likely this cause is among all that are weighed, given this log and these facts. Of causes named at 80 %, about 80 of 100 should turn out true on simulated sites.",
  ],
  gauge: [
    "Gauge pressure",
    "Pressure above the air around. An absolute pressure is higher by the weight of the air: about 14.7 psi at sea level.",
  ],
  "minimum-night-flow": ["Minimum night flow", "The least flow in the quiet hours. What never stops is likely to be a leak."],
  "common-practice": [
    "Practice and physics",
    "Common practice is what the trade does because it works on most sites; it has no source. Physics is worked out from this site's own numbers by a law with a source. Where they differ, the step says which to trust and why.",
  ],
  "straight-run": ["Straight run", "A length of pipe without bends, tees or valves, where the water has calmed down."],
  "sample-interval": [
    "Sampling interval",
    "The time between two rows of the log. A swing with fewer than four rows to a period cannot be told from noise.",
  ],
} as const satisfies Readonly<Record<string, readonly [name: string, explanation: string]>>;

export type TermId = keyof typeof TERMS;

/** Heard behind a term that can be opened. */
export const sayExplained = (name: string): string => `(${name}, explained)`;
