import type { Numbers } from "../findings/observation";
import type { Shown } from "../units/format-quantity";

/** Writes a number of the observation; "not known" where it is not there. */
export type Write = (name: string, shown: Shown, significant?: number) => string;
/** Says an answer with its numbers: a complete sentence that stands by itself. */
export type Sayer = (write: Write, numbers: Numbers) => string;
