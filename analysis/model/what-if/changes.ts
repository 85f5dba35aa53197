import { CHANGE_KINDS, type Change, type ChangeId } from "../../../shared/findings/what-if";
import { readQuantity, splitQuantity, type WrittenKind } from "../../../shared/units/parse-quantity";
import type { Frame, ParameterValues } from "../fit/frame";

export const isChangeId = (text: string): text is ChangeId => Object.hasOwn(CHANGE_KINDS, text);

/** Why a written change is not understood. */
export type ChangeProblem = {
  readonly text: string;
  readonly why: "not-id-and-value" | "unknown-id" | "wrong-value";
  readonly expected: string;
};

/** Reads "precharge=38 psi", "gain=0.5", "gain=50 %", "leak=0". */
export function readChange(text: string): Change | ChangeProblem {
  const at = text.indexOf("=");
  if (at < 1) return { text, why: "not-id-and-value", expected: "NAME=VALUE" };
  const id = text.slice(0, at).trim();
  if (!isChangeId(id)) return { text, why: "unknown-id", expected: Object.keys(CHANGE_KINDS).join(", ") };
  const to = readValue(text.slice(at + 1), CHANGE_KINDS[id]);
  return to !== null && to >= 0 ? { id, to } : { text, why: "wrong-value", expected: CHANGE_KINDS[id] };
}

function readValue(text: string, kind: WrittenKind | "ratio"): number | null {
  const written = splitQuantity(text);
  if (written?.number === 0 && written.unit === "") return kind === "flow" || kind === "time" || kind === "length" ? 0 : null;
  if (kind !== "ratio") return readQuantity(text, kind)?.value ?? null;
  if (written === null || written.number <= 0) return null;
  return written.unit === "%" ? written.number / 100 : written.unit === "" || written.unit === "x" ? written.number : null;
}

/** The site's parameters with changes made, in their order. A tank charged anew keeps its volume; a larger tank keeps its charge. */
export function withChanges(
  frame: Frame,
  values: ParameterValues,
  changes: readonly Change[],
): { readonly frame: Frame; readonly values: ParameterValues } {
  return changes.reduce((site, change) => withChange(site.frame, site.values, change), { frame, values });
}

function withChange(
  frame: Frame,
  values: ParameterValues,
  { id, to }: Change,
): { readonly frame: Frame; readonly values: ParameterValues } {
  const set = (changed: Partial<ParameterValues>) => ({ frame, values: { ...values, ...changed } });
  switch (id) {
    case "precharge":
      return set({ "gas-constant": (to + frame.atmosphere) * values["tank-volume"] });
    case "tank-volume":
      return set({ "tank-volume": to, "gas-constant": (values["gas-constant"] / values["tank-volume"]) * to });
    case "sensor-distance":
      return set({ "sensor-distance": to });
    case "pipe-bore":
      return { frame: { ...frame, bore: to }, values };
    case "gain":
      return set({ gain: values.gain * to });
    case "integral-time":
      return set({ "integral-time": to });
    case "sleep-delay":
      return set({ "sleep-delay": to });
    case "set-pressure":
      return set({ "set-pressure": to, "stop-pressure": values["stop-pressure"] + to - values["set-pressure"] });
    case "restart-pressure":
      return set({ "restart-pressure": to });
    case "leak":
      return set({ "system-leak": to, "back-leak": to });
  }
}
