import type { CubicMetre, CubicMetrePerSecond, Seconds } from "../units/quantity";
import type { CannotTell } from "./cannot-tell";
import type { Span } from "./span";

export type PumpStateBasis = "running" | "speed" | "current" | "power" | "flow" | "pressure";

/** One run of the pump. Incomplete where a gap or an end of the record cuts it: its true length is not known. */
export type Run = Span & { readonly complete: boolean };

/** When the pump ran, from the best witness present. */
export type PumpState = {
  readonly basis: PumpStateBasis;
  /** Heading of the witness. */
  readonly channel: string;
  readonly mode: "switching" | "always-running" | "always-stopped";
  /** In order of time, never overlapping. */
  readonly runs: readonly Run[];
  /** Where the state is known: the record less gaps and faults of the witness. */
  readonly observed: readonly Span[];
  /** How well the two levels part: distance over their joint spread; null with one level. */
  readonly separation: number | null;
  /** 0 to 1. */
  readonly certainty: number;
  /** Several pumps in turn, each with its own witness; empty with one. `runs` is then their union. */
  readonly pumps: readonly { readonly channel: string; readonly runs: readonly Run[] }[];
  /** Why starts may be none, or others be missing; absent where nothing speaks against them. */
  readonly doubt?: CannotTell;
};

export type Draw = Span & {
  readonly complete: boolean;
  /** Metered volume; null where only pressure shows the draw. */
  readonly volume: CubicMetre | null;
  readonly peakFlow: CubicMetrePerSecond | null;
};

/** When water was drawn. */
export type DrawState = {
  readonly basis: "flow" | "pressure";
  readonly draws: readonly Draw[];
  /** Stretches known to have no draw. */
  readonly idle: readonly Span[];
};

/** A stretch of steady draw, found by change points of the flow (or speed, where no flow is logged). */
export type SteadyWindow = Span & {
  readonly basis: "flow" | "speed";
  /** Null on the speed basis. */
  readonly meanFlow: CubicMetrePerSecond | null;
  /** Whether the pump ran throughout; null where the pump state is not known. */
  readonly pumpRunning: boolean | null;
};

/** Stretches with the pump off and no change of its state: where the tank alone carries the system. */
export type TankWindow = Span & { readonly drawnVolume: CubicMetre | null };

/** Where the flow meter stands: "after-tank" sees what is drawn, "before-tank" sees what the pump gives. Null where neither facts nor log tell. */
export type MeterPlace = {
  readonly place: "after-tank" | "before-tank" | null;
  readonly from: "given" | "log" | null;
  /** 0 to 1; 1 where given. */
  readonly certainty: number;
};

/** What was going on, shared by all detectors. Where a segment cannot be had, it says why. */
export type Segments = {
  readonly meter: MeterPlace;
  readonly pump: PumpState | CannotTell;
  readonly draw: DrawState | CannotTell;
  readonly steady: readonly SteadyWindow[] | CannotTell;
  readonly tank: LivingTank | CannotTell;
};

/** The tank as the log shows it at work, from metered draws with the pump off. */
export type LivingTank = {
  /** Time constant with which the gas gives off its heat, s; 0 where the log shows none. */
  readonly heatTime: Seconds;
  /** Excess temperature of the gas as a share of what it would be without walls that take part of the heat at once. */
  readonly heatShare: number;
  readonly windows: readonly TankWindow[];
  /** K = p0 * Vt, J (Pa absolute times m3). */
  readonly gasConstant: { readonly value: number; readonly low: number; readonly high: number };
  /** The same for all that gives water as the pressure falls: pipes, hoses and small vessels beside the tank. What flows out at rest is this times the rise of 1/p. */
  readonly give: { readonly value: number; readonly low: number; readonly high: number };
  /** Gauge pressure at which the tank runs empty, Pa: its true precharge. Null where the log never reaches it. */
  readonly emptiesAt: { readonly value: number; readonly low: number; readonly high: number } | null;
  /** The lowest gauge pressure at which the tank still gave water, Pa: the true precharge lies below. */
  readonly emptiesBelow: number | null;
  /** Points of 1/p(abs) against drawn volume for the closer look, at most some thousands: shape [n], m3 and 1/Pa, and the window they belong to. */
  readonly points: { readonly drawn: Float64Array; readonly inversePressure: Float64Array; readonly window: Uint16Array };
};

/** Narrows a segment that could not be had. */
export const isCannotTell = (segment: object): segment is CannotTell => "about" in segment && "id" in segment;
