import type { CannotTell } from "../../shared/findings/cannot-tell";
import type { MeterPlace, PumpState } from "../../shared/findings/segment";
import { channelsOf, mainChannel } from "../../shared/record/find-channel";
import type { LogFault } from "../../shared/record/log-fault";
import type { LogRecord } from "../../shared/record/log-record";
import type { SiteFacts } from "../../shared/site/site-facts";
import { stretchesOf, valuesWithoutSpikes } from "../faults/observed";
import { flowingBy } from "./flowing-by";
import { holdsWhileFlowing } from "./holds-while-flowing";
import { joinPauses } from "./join-pauses";
import { onOneCurve } from "./on-one-curve";
import { pumpFromPressure } from "./pump-from-pressure";
import { pumpFromWitness } from "./pump-witness";
import { cutQuickRestarts } from "./quick-restarts";
import { backToOrder } from "./start-order";
import { othersFellBetween } from "./witness-interval";

const ELECTRICAL = ["running", "speed", "current", "power"] as const;

/**
 * When the pump ran by what the drive or motor shows: the first of running flag, speed, current, power that switches.
 * A flag that never switches may only mean "enabled", so the others are asked too before its one level is taken.
 * @returns null where none of them is logged or tells
 */
export function pumpFromDrive(record: LogRecord, faults: readonly LogFault[]): PumpState | null {
  const states = ELECTRICAL.map((basis) => pumpFromWitness(record, faults, basis)).filter((state) => state !== null);
  const best = states.find((state) => state.mode === "switching") ?? states[0] ?? null;
  return best === null ? null : cutQuickRestarts(best, record, faults);
}

/**
 * When the pump ran, from the best witness present: drive or motor, else the flow of a meter before the tank, else the pressure's own saw-tooth.
 * The flow of a meter after the tank is what people draw, and no witness of the pump.
 * Wrong where the tank is full or empty at all times and only pressure is logged: then nothing rises or falls with the pump.
 */
export function findPumpState(
  record: LogRecord,
  faults: readonly LogFault[],
  site: SiteFacts,
  drive: PumpState | null,
  meter: MeterPlace,
): PumpState | CannotTell {
  if (drive !== null && drive.mode !== "always-stopped") return drive;
  const flow = meter.place === "before-tank" ? pumpFromWitness(record, faults, "flow") : null;
  const byFlow =
    flow?.mode === "switching"
      ? asOfItsKind(joinPauses(flow, record, faults, site.restartPressure?.value ?? null), record, faults, site)
      : null;
  // a meter that counts in pulses shows each of them as a run of a sample: the pressure tells more
  if (byFlow !== null && !othersFellBetween(record, byFlow)) return byFlow;
  const pressure = pumpFromPressure(record, faults, site, meter);
  return pressure ?? byFlow ?? drive ?? flow ?? { id: "no-pump-state", about: "starts", detail: { missing: missing(record) } };
}

/** A drive runs up before it gives water, and on for a while after the last has passed: flow tells when it gave water, and not when it stopped. */
function asOfItsKind(state: PumpState, record: LogRecord, faults: readonly LogFault[], site: SiteFacts): PumpState {
  const isDrive = site.pump === null ? mayBeDrive(state, record, faults) : site.pump === "variable-speed";
  if (!isDrive) return state;
  const begun = backToOrder(state, record, faults);
  return { ...begun, runs: begun.runs.map((run) => ({ ...run, complete: false })) };
}

function mayBeDrive({ runs }: PumpState, record: LogRecord, faults: readonly LogFault[]): boolean {
  const pressure = mainChannel(record, "pressure");
  const flow = mainChannel(record, "flow");
  const flowing = flowingBy(record, faults);
  if (pressure === null || flow === null || flowing === null) return false;
  const pressures = valuesWithoutSpikes(pressure, faults);
  if (onOneCurve(runs, flow, valuesWithoutSpikes(flow, faults), pressure, pressures) === false) return true;
  return holdsWhileFlowing(pressures, pressure.sampling, stretchesOf(pressure, faults), flowing);
}

/** The witnesses that could be logged and are not. */
function missing(record: LogRecord): string {
  const absent = [...ELECTRICAL, "pressure" as const].filter((role) => channelsOf(record, role).length === 0);
  return absent.join(", ");
}
