import { useCallback, useEffect, useState } from "react";
import { METRIC_UNITS, UNIT_OPTIONS, type UnitChoice, US_UNITS } from "../../shared/units/unit-choice";

export const LIGHTS = ["device", "paper", "night", "sunlight"] as const;
/** "device" follows the system; "sunlight" is black on white with heavy lines. */
export type Light = (typeof LIGHTS)[number];

/** How one person likes to read, kept in this browser. */
export type Preferences = {
  readonly units: UnitChoice;
  readonly light: Light;
  /** Clock time of the site, or time since the record began. */
  readonly clock: "local" | "elapsed";
};

const KEPT_UNDER = "evenhead-preferences";

/** US units where the reader's region uses them; numbers in the reader's own locale. */
export function firstPreferences(language: string): Preferences {
  const region = /-([A-Z]{2})\b/.exec(language)?.[1] ?? "";
  const units = ["US", "LR", "MM"].includes(region) || language === "en" ? US_UNITS : METRIC_UNITS;
  return { units: { ...units, locale: language || null }, light: "device", clock: "local" };
}

/** Preferences out of what was kept; a field that is missing or unknown takes its first value. */
export function readPreferences(text: string | null, language: string): Preferences {
  const first = firstPreferences(language);
  const kept = parsed(text);
  const keptUnits = kept.get("units");
  const units = new Map(typeof keptUnits === "object" && keptUnits !== null ? Object.entries(keptUnits) : []);
  const unit = <K extends keyof typeof UNIT_OPTIONS>(name: K, options: readonly UnitChoice[K][]): UnitChoice[K] =>
    options.find((option) => option === units.get(name)) ?? first.units[name];
  return {
    units: {
      pressure: unit("pressure", UNIT_OPTIONS.pressure),
      flow: unit("flow", UNIT_OPTIONS.flow),
      volume: unit("volume", UNIT_OPTIONS.volume),
      length: unit("length", UNIT_OPTIONS.length),
      temperature: unit("temperature", UNIT_OPTIONS.temperature),
      power: unit("power", UNIT_OPTIONS.power),
      locale: first.units.locale,
    },
    light: LIGHTS.find((light) => light === kept.get("light")) ?? first.light,
    clock: kept.get("clock") === "elapsed" ? "elapsed" : "local",
  };
}

function parsed(text: string | null): ReadonlyMap<string, unknown> {
  try {
    const value: unknown = JSON.parse(text ?? "{}");
    return new Map(typeof value === "object" && value !== null ? Object.entries(value) : []);
  } catch {
    return new Map();
  }
}

/** The preferences and how to change them. Without storage (private window) they last as long as the page. */
export function usePreferences(): readonly [Preferences, (change: Partial<Preferences>) => void] {
  const [preferences, set] = useState(() => readPreferences(stored(), navigator.language));
  useEffect(() => {
    document.documentElement.dataset.light = preferences.light;
    try {
      localStorage.setItem(KEPT_UNDER, JSON.stringify(preferences));
    } catch {
      // Storage refused: nothing to keep it in.
    }
  }, [preferences]);
  return [preferences, useCallback((change) => set((now) => ({ ...now, ...change })), [])];
}

function stored(): string | null {
  try {
    return localStorage.getItem(KEPT_UNDER);
  } catch {
    return null;
  }
}
