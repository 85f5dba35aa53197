import type { CautionId } from "../../shared/findings/advice";

/**
 * Cautions by the kind of work, in the order in which they are met. Those of everyone (equipment's own instructions, local codes) end each
 * list; what stands beside a step is never shortened. Sources stand in shared/wording/caution.ts.
 */
const EVERYWHERE: readonly CautionId[] = ["equipment-instructions", "local-codes-first"];

export const CAUTIONS = {
  /** Looking and reading only, nothing opened. */
  looking: ["equipment-instructions"],
  /** Air charge of a tank: reading, raising, lowering. */
  airCharge: ["isolate-power", "wait-for-stored-energy", "relieve-water-first", "marked-pressure", "qualified-people", ...EVERYWHERE],
  /** A tank fitted or changed. */
  tankWork: [
    "isolate-power",
    "wait-for-stored-energy",
    "relieve-water-first",
    "marked-pressure",
    "relief-valve-stays",
    "drinking-water",
    "qualified-people",
    ...EVERYWHERE,
  ],
  /** A sensor moved, cleaned or protected. */
  sensorWork: [
    "isolate-power",
    "wait-for-stored-energy",
    "relieve-water-first",
    "frost",
    "drinking-water",
    "qualified-people",
    ...EVERYWHERE,
  ],
  /** Settings of the drive changed while the system runs. */
  settings: ["marked-pressure", "qualified-people", ...EVERYWHERE],
  /** Inside the drive or at its terminals. */
  wiring: ["isolate-power", "wait-for-stored-energy", "qualified-people", ...EVERYWHERE],
  /** The pump opened or its rotation looked at. */
  pumpWork: [
    "isolate-power",
    "wait-for-stored-energy",
    "rotating-parts",
    "relieve-water-first",
    "drinking-water",
    "qualified-people",
    ...EVERYWHERE,
  ],
  /** Pipes and valves opened. */
  pipeWork: ["isolate-power", "relieve-water-first", "drinking-water", "qualified-people", ...EVERYWHERE],
  /** Pressure above the tank's mark. */
  overMarked: ["marked-pressure", "relief-valve-stays", "isolate-power", "relieve-water-first", "qualified-people", ...EVERYWHERE],
} as const satisfies Readonly<Record<string, readonly CautionId[]>>;
