/** A number that carries its unit in its type, so that two units cannot be mixed by accident. */
export type Quantity<Unit extends string> = number & { readonly unit: Unit };

export type Seconds = Quantity<"s">;
export type Hertz = Quantity<"Hz">;
export type Metre = Quantity<"m">;
export type CubicMetre = Quantity<"m3">;
export type CubicMetrePerSecond = Quantity<"m3/s">;
export type Watt = Quantity<"W">;
export type Ampere = Quantity<"A">;
export type Kelvin = Quantity<"K">;
/** Gas constant of a tank, p0 * Vt, absolute pressure times volume. */
export type Joule = Quantity<"J">;

export const seconds = (s: number) => s as Seconds;
export const hertz = (hz: number) => hz as Hertz;
export const metre = (m: number) => m as Metre;
export const cubicMetre = (m3: number) => m3 as CubicMetre;
export const cubicMetrePerSecond = (m3s: number) => m3s as CubicMetrePerSecond;
export const watt = (w: number) => w as Watt;
export const ampere = (a: number) => a as Ampere;
export const kelvin = (k: number) => k as Kelvin;
export const joule = (j: number) => j as Joule;
