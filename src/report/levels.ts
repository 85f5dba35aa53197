import { formatQuantity } from "../../shared/units/format-quantity";
import { IN_REPORT } from "../../shared/wording/report";
import type { ReportInput } from "./report-input";
import type { Level } from "./trace-picture";

/** The marked pressure is drawn where the record comes this near to it; further off it would only flatten the picture. */
const NEAR_MARKED = 0.8;

/** What is drawn across the pressure: the set pressure with its band, and the tank's marked pressure. */
export function levelsOf({ document, units }: ReportInput): readonly Level[] {
  const { setPressurePa, bandPa, highestPa } = document.tracking;
  const marked = numberOf(document.site.tankRatedPressure);
  const write = (pa: number) => formatQuantity(pa, "gaugePressure", units);
  return [
    ...(setPressurePa === null ? [] : [{ at: setPressurePa, label: IN_REPORT.trace.setPressure(write(setPressurePa)), band: bandPa }]),
    ...(marked === null || highestPa === null || highestPa < NEAR_MARKED * marked
      ? []
      : [{ at: marked, label: IN_REPORT.trace.marked(write(marked)), band: null }]),
  ];
}

const numberOf = (fact: unknown): number | null =>
  typeof fact === "object" && fact !== null && "value" in fact && typeof fact.value === "number" ? fact.value : null;
