import { type Seconds, seconds, type Watt } from "../../shared/units/quantity";

/** Poles of the motor. Deep-well and most small pump motors have 2, many others 4. */
export type Poles = 2 | 4 | 6;
/** hp, then per pole count: most starts per hour, and least seconds off. */
type Row = readonly [number, Readonly<Record<Poles, readonly [number, number]>>];

/** NEMA MG 10 allowable starts, design A and B motors started across the line, as reprinted in the EASA handbook (columns A and C). */
const TABLE: readonly Row[] = [
  [1, { 2: [15, 75], 4: [30, 38], 6: [34, 33] }],
  [3, { 2: [9.9, 80], 4: [19.8, 40], 6: [22.4, 36] }],
  [5, { 2: [8.1, 83], 4: [16.3, 42], 6: [18.4, 37] }],
  [10, { 2: [6.2, 92], 4: [12.5, 46], 6: [14.2, 41] }],
  [25, { 2: [4.4, 115], 4: [8.8, 58], 6: [10.0, 51] }],
  [50, { 2: [3.4, 145], 4: [6.8, 72], 6: [7.7, 64] }],
  [100, { 2: [2.6, 220], 4: [5.2, 110], 6: [5.9, 97] }],
];
const WATT_PER_HP = 745.6998715822702; // NIST SP 811, App. B.8

/**
 * Most starts per hour and least time off that motor practice allows by power. Between the table's powers straight in the logarithm
 * of power; below 1 hp the row of 1 hp, above 100 hp null: ask the motor's maker.
 * Does not cover motors started softly by a drive, which bear more, nor heavy loads (the table's load column is left out).
 * @throws RangeError where power is not above 0
 * Source: NEMA MG 10. 5 hp, 2 poles: 8.1 starts per hour, 83 s off.
 */
export function allowedStarts(power: Watt, poles: Poles): { readonly perHour: number; readonly leastRest: Seconds } | null {
  if (!(power > 0)) throw new RangeError(`allowedStarts: power ${power} W`);
  const hp = Math.max(power / WATT_PER_HP, TABLE[0][0]);
  const above = TABLE.findIndex(([size]) => size >= hp * (1 - 1e-9));
  if (above < 0) return null;
  const [high, highRow] = TABLE[above];
  const [low, lowRow] = TABLE[Math.max(0, above - 1)];
  const share = high === low ? 1 : Math.min(1, Math.log(hp / low) / Math.log(high / low));
  const between = (i: 0 | 1) => lowRow[poles][i] + share * (highRow[poles][i] - lowRow[poles][i]);
  return { perHour: between(0), leastRest: seconds(between(1)) };
}
