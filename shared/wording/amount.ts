import type { Amount, AmountId, AmountQuantity, InputId } from "../findings/advice";
import { formatQuantity, formatRange, type Shown, scaleOf } from "../units/format-quantity";
import type { UnitChoice } from "../units/unit-choice";
import { BOYLE, PRACTICE } from "./source";

/** Name, formula and source of an amount. */
export type AmountWords = { readonly of: string; readonly formula: string; readonly source: string };

const AMOUNTS: Readonly<Record<AmountId, AmountWords>> = {
  "tank-volume-by-practice": { of: "Total tank volume, at least", formula: "20 % of what the pump gives in a minute", source: PRACTICE },
  "tank-volume-by-run-time": {
    of: "Total tank volume for the wanted run time",
    formula: "Q t / (p0 (1/p start − 1/p stop)), pressures absolute, no other draw",
    source: `${BOYLE}; drawdown of one run, The Driller`,
  },
  "tank-volume-by-starts": {
    of: "Total tank volume for the allowed starts",
    formula: "(Q T / 4) / (p0 (1/p start − 1/p stop)), T = 1 h / starts, at the worst draw",
    source: `${BOYLE}; MIL-HDBK-1005/9A sec. 2.5.3.6; WA DOH 331-123 eq. 11-1`,
  },
  "precharge-by-practice": {
    of: "Precharge",
    formula: "15 to 20 psi below set pressure; the higher setting, 15 psi below, where drift at steady flow is over its limit",
    source: PRACTICE,
  },
  "precharge-by-switch-practice": { of: "Precharge", formula: "2 psi below cut-in", source: "well-owners' trade-body sheet" },
  "precharge-now": { of: "Precharge now, as the gas shows it", formula: "p0 = K / Vt − air pressure", source: BOYLE },
  "softness-lower-setting": { of: "Softness at the lower setting", formula: "C = p0 Vt / p², pressures absolute", source: BOYLE },
  "softness-higher-setting": { of: "Softness at the higher setting", formula: "C = p0 Vt / p², pressures absolute", source: BOYLE },
  "stored-water-lower-setting": { of: "Water held at the lower setting", formula: "Vt (1 − p0/p), pressures absolute", source: BOYLE },
  "stored-water-higher-setting": { of: "Water held at the higher setting", formula: "Vt (1 − p0/p), pressures absolute", source: BOYLE },
  "sensor-distance-by-practice": {
    of: "Pipe between sensor and tank",
    formula: "at most 10 ft, in the tank's own straight run, away from elbows, connector up",
    source: PRACTICE,
  },
  "surge-period-now": {
    of: "Swing of the water between sensor and tank, now",
    formula: "T = 2π √(ρ L/A · K/(n p²)), n from 1.4 to 1",
    source: "mass on a spring; Wylie and Streeter, from memory",
  },
  "surge-period-moved": {
    of: "The same with the sensor at 10 ft",
    formula: "T = 2π √(ρ L/A · K/(n p²)), n from 1.4 to 1",
    source: "mass on a spring; Wylie and Streeter, from memory",
  },
  "gain-ratio-by-practice": { of: "Gain, times what it is now", formula: "halve, log, and halve again if needed", source: PRACTICE },
  "gain-ratio-by-margin": {
    of: "Gain, times what it is now",
    formula: "a loop that keeps swinging stands at its ultimate gain Ku; 0.45 Ku, or Ku/3 for a margin of 3",
    source: "Ziegler and Nichols 1942 (PI); Skogestad 2003 (gain margin about 3)",
  },
  "gain-raise-by-practice": { of: "Gain, times what it is now", formula: "raise by half or double, watch, and log", source: PRACTICE },
  "sleep-delay-by-practice": {
    of: "Delay before sleep, at least",
    formula: "one to two times the shortest run that is wanted",
    source: PRACTICE,
  },
  "sleep-delay-by-run-time": {
    of: "Delay, longer than now by",
    formula: "wanted run time − present median run",
    source: "a run lasts as long as the delay lasts longer",
  },
  "leak-per-day": { of: "Lost in a day", formula: "leak × 24 h", source: BOYLE },
  "scale-ratio": {
    of: "Recorded over real pressure",
    formula: "recorded pressure / pressure that is held",
    source: "ratio of two pressures",
  },
  "pump-flow-needed": {
    of: "Flow the pump must give at set pressure",
    formula: "highest flow of the log, up to a fifth more",
    source: PRACTICE,
  },
  "over-marked": { of: "Above the tank's marked pressure", formula: "highest pressure − marked pressure", source: "marking on the tank" },
  "demand-period": { of: "Look for a consumer with this period", formula: "period of the oscillation", source: "least squares" },
};

const INPUTS: Readonly<Record<InputId, string>> = {
  "set-pressure": "set pressure",
  "cut-in": "pressure at start",
  "cut-out": "pressure at stop",
  precharge: "precharge p0",
  "tank-volume": "total volume Vt",
  "pump-flow": "pump flow Q",
  "run-time": "wanted run time t",
  "starts-per-hour": "allowed starts",
  "air-pressure": "air pressure",
  "gas-constant": "gas constant K",
  "sensor-distance": "pipe L",
  "pipe-bore": "bore",
  period: "as logged",
  leak: "leak",
  highest: "highest pressure",
  marked: "marked pressure",
  "peak-flow": "highest flow",
  ratio: "ratio",
};
const FROM = {
  given: "given",
  company: "company limit",
  assumed: "assumed",
  log: "from the log",
  practice: "as common practice sets it",
  model: "predicted by the fitted model",
} as const;

export const amountWords = (id: AmountId): AmountWords => AMOUNTS[id];

function sayValue(value: number, quantity: AmountQuantity, units: UnitChoice): string {
  if (quantity === "energy") return `${formatQuantity(value / 1000, "ratio", units)}\u202fkJ`;
  if (quantity === "compliance")
    return `${formatQuantity(value * scaleOf("pressureDifference", units).toSI(1), "volume", units, 2)} per ${units.pressure}`;
  return formatQuantity(value, quantity, units);
}

function sayRange({ low, high, quantity }: Amount, units: UnitChoice): string {
  if (quantity === "energy" || quantity === "compliance" || low === high) return sayValue(low, quantity, units);
  const shown: Shown = quantity;
  if (shown === "time") return `${formatQuantity(low, shown, units, 2)} to ${formatQuantity(high, shown, units, 2)}`;
  return formatRange(low, high, shown, units);
}

/** The amount in one line: "Precharge (common practice): 32 to 37 psi". */
export const sayAmount = (amount: Amount, units: UnitChoice): string =>
  `${AMOUNTS[amount.id].of} (${amount.basis}): ${sayRange(amount, units)}`;

/** The calculation to read: formula, the site's own numbers with where they are from, and the source of the formula. */
export function sayCalculation(amount: Amount, units: UnitChoice): string {
  const { formula, source } = AMOUNTS[amount.id];
  const inputs = amount.inputs.map((i) => `${INPUTS[i.name]} ${sayValue(i.value, i.quantity, units)} (${FROM[i.from]})`);
  return `${formula}${inputs.length === 0 ? "" : `; ${inputs.join(", ")}`}. Source: ${source}.`;
}
