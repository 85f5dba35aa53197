import { found, type Seen } from "../diagnosis/observations/sight";
import { prechargeByPractice } from "./amounts";

/** The highest pressure that the log shows or that settings, pump or a proposed charge would bring, Pa gauge, and where it is from. */
export function highestPressure(seen: Seen): { readonly value: number; readonly from: "given" | "company" | "assumed" | "log" } | null {
  const { site } = seen;
  const logged = [
    found(seen, "over-marked-pressure")?.highest,
    found(seen, "tracking")?.highest,
    found(seen, "pump-performance")?.shutoffPressure,
  ].flatMap((value) => (value == null ? [] : [{ value, from: "log" as const }]));
  const told = [site.setPressure, site.cutOut].flatMap((fact) => (fact === null ? [] : [{ value: fact.value, from: fact.from }]));
  const proposed = prechargeByPractice(seen);
  const all = [...logged, ...told, ...(proposed === null ? [] : [{ value: proposed.high, from: "assumed" as const }])];
  return all.reduce<(typeof all)[number] | null>((most, one) => (most === null || one.value > most.value ? one : most), null);
}
