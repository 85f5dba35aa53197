import type { Quantity } from "./quantity";

/** What a pressure sensor reads. */
export type GaugePascal = Quantity<"Pa gauge">;
/** What the gas law needs. */
export type AbsolutePascal = Quantity<"Pa absolute">;
/** A change, a band, a peak-to-peak height: neither gauge nor absolute. */
export type PascalDifference = Quantity<"Pa difference">;

/** 1 lbf/in2 from the exact inch, pound and standard gravity, rounded at the 13th digit. NIST SP 811, App. B.8 prints 6 894.757. */
export const PASCAL_PER_PSI = 6894.757293168;
/** Standard atmosphere, Pa absolute. NIST SP 811, App. B.8. */
export const STANDARD_ATMOSPHERE = 101325 as AbsolutePascal;

export const gaugePascal = (pa: number) => pa as GaugePascal;
export const absolutePascal = (pa: number) => pa as AbsolutePascal;
export const pascalDifference = (pa: number) => pa as PascalDifference;

/** The only door from gauge to absolute: nobody passes without saying what the air weighs here. */
export const toAbsolute = (p: GaugePascal, atmosphere: AbsolutePascal) => (p + atmosphere) as AbsolutePascal;
