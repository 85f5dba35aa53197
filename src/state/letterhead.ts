import type { Letterhead } from "../report/report-input";

const KEPT_UNDER = "evenhead-letterhead";
const NONE: Letterhead = { lines: [], logo: null };

/** The letterhead as kept in this browser: entered once, on every report. */
export function keptLetterhead(): Letterhead {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEPT_UNDER) ?? "null");
    const fields = new Map(typeof kept === "object" && kept !== null ? Object.entries(kept) : []);
    const [lines, logo]: readonly unknown[] = [fields.get("lines"), fields.get("logo")];
    return { lines: Array.isArray(lines) ? lines.map(String) : [], logo: typeof logo === "string" ? logo : null };
  } catch {
    return NONE;
  }
}

/** @returns whether it could be kept: a large logo may not fit */
export function keepLetterhead(letterhead: Letterhead): boolean {
  try {
    localStorage.setItem(KEPT_UNDER, JSON.stringify(letterhead));
    return true;
  } catch {
    return false;
  }
}
