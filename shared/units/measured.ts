/** A measured quantity with its 95 % interval, all three in the same unit. Where the interval is not known, the whole is null. */
export type Measured<Unit extends number = number> = { readonly value: Unit; readonly low: Unit; readonly high: Unit };

/** A measurement and its 95 % interval. @throws RangeError where the value lies outside its interval or one of the three is not finite. */
export function measured<Unit extends number>(value: Unit, low: Unit, high: Unit): Measured<Unit> {
  if (!(low <= value && value <= high && Number.isFinite(low) && Number.isFinite(high))) {
    throw new RangeError(`measured: ${value} with interval ${low} to ${high}`);
  }
  return { value, low, high };
}
