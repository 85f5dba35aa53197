import type { ChannelQuantity, ChannelRole } from "../../../shared/record/channel-role";
import type { ImportQuestion } from "../../../shared/record/import-question";
import type { Unit } from "../../../shared/units/unit-table";
import type { ColumnFacts } from "./column-facts";
import { findReference } from "./unit-from-text";

/** Where a gauge open to the air and read as absolute rests: sea level within the weather and some 500 m. Common practice, no source. */
const AIR_LOW = 95_000;
const AIR_HIGH = 104_500;

/** A barometer measures the air itself, from vacuum. */
const BAROMETER = /\bbaro\w*|\batmosph?er\w*|\bluftdruck\b|\bluchtdruk\b/;

/**
 * Gauge, absolute or a vacuum that counts downwards (sign -1): the person, the unit ("psig"), then words decide; a plain pressure is gauge. Where nothing is said and the values rest at
 * the pressure of the air, they look absolute: taken so, and asked. Quantity null for what is no pressure.
 */
export function settleReference(
  role: ChannelRole,
  unit: Unit | null,
  facts: ColumnFacts,
  preamble: readonly string[],
): { readonly quantity: ChannelQuantity | null; readonly sign: 1 | -1; readonly questions: readonly ImportQuestion[] } {
  if (unit === null || !["pressure", "gaugePressure", "absolutePressure"].includes(unit.quantity))
    return { quantity: null, sign: 1, questions: [] };
  const isVacuum = facts.choice.reference === null && unit.quantity !== "absolutePressure" && countsVacuum(facts);
  if (isVacuum || facts.choice.reference === "vacuum")
    return { quantity: "gaugePressure", sign: -1, questions: isVacuum ? [vacuumQuestion(facts.name)] : [] };
  const said =
    facts.choice.reference ??
    facts.unit?.reference ??
    referenceOf(unit) ??
    findReference(facts.text) ??
    (BAROMETER.test(facts.words) ? "absolute" : null) ??
    referenceInPreamble(preamble);
  if (said !== null) return { quantity: said === "absolute" ? "absolutePressure" : "gaugePressure", sign: 1, questions: [] };
  if (role !== "pressure" || !restsAtAir(facts, unit)) return { quantity: "gaugePressure", sign: 1, questions: [] };
  return { quantity: "absolutePressure", sign: 1, questions: [referenceQuestion(facts.name)] };
}

const referenceOf = (unit: Unit) => (unit.quantity === "pressure" ? null : unit.quantity === "absolutePressure" ? "absolute" : "gauge");

const referenceInPreamble = (preamble: readonly string[]): "gauge" | "absolute" | null => {
  for (const line of preamble) {
    const said = /press|dr[uü]ck|druk|presi|reference|referenz|sensor|transducer/i.test(line) ? findReference(line) : null;
    if (said !== null) return said;
  }
  return null;
};

/** The lowest of the values lie at the pressure of the air, some at least, and the highest well above it. */
function restsAtAir({ values }: ColumnFacts, unit: Unit): boolean {
  const { sorted } = values;
  const at = (share: number) => sorted[Math.floor(share * (sorted.length - 1))] * unit.factor;
  return sorted.length >= 20 && at(0) >= AIR_LOW && at(0.02) <= AIR_HIGH && at(1) > 1.5 * AIR_HIGH;
}

const VACUUM = /\bvacuum\b|\bvakuum\b|\bunterdruck\b|\bvacuo\b|\bvuoto\b|\bvacio\b|\bvide\b|\bdepression\b|\bonderdruk\b/;

/** Numbers above 0 under a word for vacuum: how far below the air, as the dials of such gauges have it. Common practice, no source. */
const countsVacuum = ({ words, text, values }: ColumnFacts): boolean =>
  VACUUM.test(words) && findReference(text) === null && values.low >= 0 && values.high > 0;

const vacuumQuestion = (name: string): ImportQuestion => ({
  id: `reference:${name}`,
  asks: { kind: "vacuum", name },
  options: ["vacuum", "absolute", "gauge"],
  assumed: "vacuum",
});

const referenceQuestion = (name: string): ImportQuestion => ({
  id: `reference:${name}`,
  asks: { kind: "reference", name },
  options: ["absolute", "gauge"],
  assumed: "absolute",
});
