import { found } from "../diagnosis/observations/sight";
import { prechargeByPractice } from "./amounts";
import type { Basis } from "./rule";

/** The highest pressure that the log shows or that settings, pump or a proposed charge would bring, Pa gauge, and where it is from. */
export function highestPressure(
  seen: Basis,
): { readonly value: number; readonly from: "given" | "company" | "assumed" | "log" | "model" } | null {
  const { site } = seen;
  const logged = [
    found(seen, "over-marked-pressure")?.highest,
    found(seen, "tracking")?.highest,
    found(seen, "pump-performance")?.shutoffPressure,
  ].flatMap((value) => (value == null ? [] : [{ value, from: "log" as const }]));
  const told = [site.setPressure, site.cutOut].flatMap((fact) => (fact === null ? [] : [{ value: fact.value, from: fact.from }]));
  const proposed = prechargeByPractice(seen);
  const all = [
    ...logged,
    ...told,
    ...(proposed === null ? [] : [{ value: proposed.high, from: "assumed" as const }]),
    ...(seen.predicted == null ? [] : [{ value: seen.predicted, from: "model" as const }]),
  ];
  return all.reduce<(typeof all)[number] | null>((most, one) => (most === null || one.value > most.value ? one : most), null);
}
