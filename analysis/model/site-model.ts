import type { Clock } from "../../shared/record/clock";

/**
 * A pumped site as the model knows it. All plain numbers are SI: Pa gauge (absolute only where named so), m3, m3/s, m, s; speeds are
 * shares of full speed. The water's way: suction, pump, check valve, manifold, pipe, tank with the draw beside it.
 */
export type SiteModel = {
  readonly suctionPressure: number;
  readonly atmosphere: number;
  readonly pump: PumpModel;
  /** Water let back through a shut check valve at the set pressure, m3/s; 0 is tight. */
  readonly backLeak: number;
  /** Stretch of manifold and hoses at the pump, m3/Pa. */
  readonly manifoldCompliance: number;
  /** From the manifold to the tank. Resistance: Pa per (m3/s)^2 of pipe and fittings together. */
  readonly pipe: { readonly length: number; readonly bore: number; readonly resistance: number };
  readonly tank: TankModel;
  /** Water lost downstream of the tank at the set pressure, m3/s; through a round hole. */
  readonly systemLeak: number;
  /** Where the draw leaves: at the tank (usual) or at the manifold, with the tank on a branch. */
  readonly drawAt: "tank" | "manifold";
  readonly control: DriveModel | SwitchModel;
  /** What the drive or switch acts on. */
  readonly sensor: SensorModel;
  readonly logger: LoggerModel;
};

export type PumpModel = {
  /** Pressure rise at full speed and no flow, Pa, and the curve's r, Pa per (m3/s)^2. */
  readonly shutoff: number;
  readonly steepness: number;
  readonly ratedFlow: number;
  /** 1 is sound; a worn pump or one turning backwards raises less. Backwards also passes less: see `weakened`. */
  readonly health: number;
  /** When it has lost its prime, s from the start. */
  readonly withoutPrime: readonly TimeSpan[];
  /** Current at rated duty, A, and power, W, for the logged channels. */
  readonly ratedCurrent: number;
  readonly ratedPower: number;
};

export type TankModel = {
  readonly volume: number;
  /** Gauge, with the tank empty of water. */
  readonly precharge: number;
  /** Share of that charge still there: 1 as charged; near 0 water-logged. K = (precharge + atmosphere) * gasLeft * volume. */
  readonly gasLeft: number;
  /** Stretch of pipes and fittings around the tank, all that is left when it is empty, m3/Pa. */
  readonly stiffness: number;
  /** How fast the gas takes the wall's temperature, s; 0: at once (constant temperature). */
  readonly heatTime: number;
};

export type DriveModel = {
  readonly kind: "variable-speed";
  readonly setPressure: number;
  /** Speed share per Pa, and s. */
  readonly gain: number;
  readonly integralTime: number;
  readonly leastSpeed: number;
  /** Time from standstill to full speed, and back, s. */
  readonly rampUp: number;
  readonly rampDown: number;
  /** How often the loop acts, s. */
  readonly interval: number;
  /** Smoothing of the reading inside the drive, s, and lag of motor and water behind the speed asked for, s: first order both. */
  readonly filter: number;
  readonly motorLag: number;
  /** At or below this speed for `sleepDelay` the drive lifts pressure by `boost` and stops. */
  readonly sleepSpeed: number;
  readonly sleepDelay: number;
  readonly boost: number;
  readonly boostTime: number;
  readonly restartPressure: number;
  readonly restartDelay: number;
  /** Stops when pressure stays below a quarter of the set pressure at full speed so long, tries again later; null: never. */
  readonly dryRunStop: { readonly after: number; readonly retryAfter: number } | null;
};

export type SwitchModel = {
  readonly kind: "fixed-speed";
  readonly cutIn: number;
  readonly cutOut: number;
  /** Time to full speed and to standstill, s. */
  readonly rampUp: number;
  readonly rampDown: number;
};

export type SensorModel = {
  /** Along the pipe from the tank towards the pump, m; at most the pipe's length. */
  readonly fromTank: number;
  /** First-order lag, s: damping, or minutes where the port is plugged. */
  readonly lag: number;
  /** Of each reading, Pa. */
  readonly noise: number;
  readonly step: number;
  readonly range: { readonly low: number; readonly high: number };
  /** Standard deviation of pressure per dynamic pressure rho v^2/2 in an elbow or tee; 0 in a calm place. */
  readonly turbulence: number;
  /** Reads gain * p + offset: 1 and 0 are right. */
  readonly scale: { readonly gain: number; readonly offset: number };
  /** Holds its last value (frozen or stuck). */
  readonly stuck: readonly TimeSpan[];
};

export type LoggerModel = {
  readonly interval: number;
  /** Standard deviation of the sampling instant, s. */
  readonly jitter: number;
  /** Chance that a row is missing. */
  readonly missing: number;
  readonly gaps: readonly TimeSpan[];
  /** The logger's own pressure sensor; null: it logs the drive's signal. */
  readonly ownSensor: SensorModel | null;
  readonly channels: readonly LoggedChannel[];
  /** After the tank it sees draw and system leak; before the tank the flow in the pipe. `leastFlow`: below it reads 0. */
  readonly meter: {
    readonly place: "after-tank" | "before-tank";
    readonly noise: number;
    readonly step: number;
    readonly leastFlow: number;
    readonly seesLeak: boolean;
  };
  readonly clock: Clock;
  /** Air temperature, K: mean and half the daily swing; coldest at 5 in the morning. */
  readonly temperature: { readonly mean: number; readonly swing: number };
};

/** "pressure-at-pump": a second, sound pressure at the manifold. */
export type LoggedChannel = "pressure" | "pressure-at-pump" | "flow" | "speed" | "running" | "current" | "power" | "temperature";

export type TimeSpan = { readonly from: number; readonly to: number };

export const within = (spans: readonly TimeSpan[], t: number): boolean => spans.some((span) => t >= span.from && t < span.to);

/** Gas constant at rest temperature, J. */
export const tankGasConstant = (site: SiteModel): number => (site.tank.precharge + site.atmosphere) * site.tank.gasLeft * site.tank.volume;

/** Gauge pressure at which the tank is empty of water; below 0 where it is water-logged. */
export const tankEmptiesAt = (site: SiteModel): number => (site.tank.precharge + site.atmosphere) * site.tank.gasLeft - site.atmosphere;

/** Pressure that the control aims at: set pressure, or cut-out of a switch. */
export const aimedPressure = (site: SiteModel): number =>
  site.control.kind === "variable-speed" ? site.control.setPressure : site.control.cutOut;
