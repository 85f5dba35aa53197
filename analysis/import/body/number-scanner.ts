import { FURTHEST_INSTANT } from "../clock/number-clock";
import type { StampScanner } from "./stamp-scanner";

/** Decimal digits with at most one point, up to 15 in all: exact as Number() is, see plain-rows.ts. @param unitSeconds seconds of one step of the number */
export function numberScanner(unitSeconds: number): StampScanner {
  return {
    end: 0,
    scan(bytes, from) {
      let at = from;
      let whole = 0;
      let digit = bytes[at] - 48;
      while (digit >= 0 && digit <= 9) {
        whole = whole * 10 + digit;
        digit = bytes[++at] - 48;
      }
      const digits = at - from;
      let decimals = 0;
      if (bytes[at] === 46) {
        const start = ++at;
        for (digit = bytes[at] - 48; digit >= 0 && digit <= 9; digit = bytes[++at] - 48) whole = whole * 10 + digit;
        decimals = at - start;
      }
      if (digits === 0 || digits + decimals > 15) return Number.NaN;
      this.end = at;
      const instant = (decimals === 0 ? whole : whole / 10 ** decimals) * unitSeconds;
      return instant <= FURTHEST_INSTANT ? instant : Number.NaN;
    },
    addAlike: (_bytes, _cells, from) => from,
  };
}
