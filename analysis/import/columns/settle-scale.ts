import type { ChannelRole } from "../../../shared/record/channel-role";
import type { Unit } from "../../../shared/units/unit-table";
import type { ColumnValues } from "./column-values";
import type { FoundUnit } from "./unit-from-text";

/**
 * What the middle of a column usually is in a small pumped system, SI: 0.5 to 16 bar, 0.6 to 1,800 L/min at most, 5 to 120 Hz (or turns a second), 0.2 to 200 A, 100 W to 100 kW,
 * -5 to 70 C. Only decides which of two scales a heading means. Common practice, no source.
 */
const USUAL: Partial<Record<ChannelRole, readonly [number, number]>> = {
  pressure: [5e4, 1.6e6],
  flow: [1e-5, 0.03],
  speed: [5, 120],
  current: [0.2, 200],
  power: [100, 1e5],
  temperature: [268, 343],
};

/** Of the two units that "bar x 10" may mean the one under which the values are usual; `open` where both are or none is: then it is asked. */
export function settleScale(
  { unit, other }: FoundUnit,
  role: ChannelRole,
  { median, high }: ColumnValues,
): { readonly unit: Unit; readonly open: readonly Unit[] } {
  if (other === undefined) return { unit, open: [] };
  const [first, second] = [unit, other].map((one) => isUsual(one, role, { median, high }));
  if (first === second) return { unit, open: [unit, other] };
  return { unit: first ? unit : other, open: [] };
}

/** Whether the middle of a column in this unit is what a small pumped system usually has. */
export function isUsual({ factor, offset }: Unit, role: ChannelRole, { median, high }: Pick<ColumnValues, "median" | "high">): boolean {
  const usual = USUAL[role];
  const middle = role === "flow" || median === 0 ? high : median;
  return usual !== undefined && middle * factor + offset >= usual[0] && middle * factor + offset <= usual[1];
}

/**
 * What no pumped water system of a building or a small town shows, SI, [least, most] of the largest value; least of a pressure: 20 cm of water, so that a
 * gauge in mbar over one in bar is told. Common practice, no source.
 */
const POSSIBLE: Partial<Record<ChannelRole, readonly [number, number]>> = {
  pressure: [2e3, 1e7],
  flow: [0, 2],
  speed: [0, 500],
  current: [0, 2000],
  power: [0, 5e6],
  temperature: [200, 423],
};

/** Whether nearly all of a column is more, or all of it less, than can be; a still column and a pressure that may be near none are let pass. */
export function isImpossible({ factor, offset }: Unit, role: ChannelRole, values: ColumnValues, position: string | null): boolean {
  const possible = POSSIBLE[role];
  if (possible === undefined || !(values.low < values.high)) return false;
  // rest stands at nothing in every unit, and a unit that changes on the way leaves some that can be
  const moving = values.sorted.filter((value) => value > 0);
  if (moving[Math.floor(moving.length / 10)] * factor + offset > possible[1]) return true;
  return values.median > 0 && position === null && values.high * factor + offset < possible[0];
}
