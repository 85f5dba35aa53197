import type { Sight } from "./observations/sight";
import { startsOnTheLine } from "./observations/starts-on-the-line";
import { showsSwitch } from "./observations/switch-in-log";

/** The same, with the kind of the pump among the facts where only the log shows it; facts that speak of a drive are not overruled by a climb of the pressure. */
export function withPumpKind<S extends Sight>(sight: S): S {
  const { pump, setPressure, restartPressure } = sight.site;
  if (pump !== null) return sight;
  const climbs = () => setPressure === null && restartPressure === null && showsSwitch(sight);
  return startsOnTheLine(sight) || climbs() ? { ...sight, site: { ...sight.site, pump: "fixed-speed" } } : sight;
}
