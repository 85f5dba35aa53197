import type { AbsolutePascal, GaugePascal, PascalDifference } from "../units/pressure";
import type { CubicMetre, CubicMetrePerSecond, Metre, Seconds, Watt } from "../units/quantity";

/** A fact with where it came from: "company", a limit that the company sets for all its sites. `text` and `unit` are as the person wrote them. */
export type Fact<T> = {
  readonly value: T;
  readonly unit: string;
  readonly from: "given" | "company" | "assumed" | "log";
  readonly text: string;
};

/** What a person knows about the site. Everything is optional; null is "not known", never a typical value. */
export type SiteFacts = {
  readonly name: string | null;
  readonly setPressure: Fact<GaugePascal> | null;
  readonly pumpRatedFlow: Fact<CubicMetrePerSecond> | null;
  readonly motorPower: Fact<Watt> | null;
  readonly pump: "variable-speed" | "fixed-speed" | null;
  readonly cutIn: Fact<GaugePascal> | null;
  readonly cutOut: Fact<GaugePascal> | null;
  readonly restartPressure: Fact<GaugePascal> | null;
  readonly tankVolume: Fact<CubicMetre> | null;
  readonly precharge: Fact<GaugePascal> | null;
  readonly tankRatedPressure: Fact<GaugePascal> | null;
  readonly sensorToTank: Fact<Metre> | null;
  readonly pipeInsideDiameter: Fact<Metre> | null;
  readonly flowMeter: "after-tank" | "before-tank" | null;
  readonly altitude: Fact<Metre> | null;
  readonly zone: string | null;
  /** Always there: 60 s assumed where not given. */
  readonly shortCycleLimit: Fact<Seconds>;
  readonly limits: AcceptanceLimits;
  /** Air pressure at the site's altitude, or the standard atmosphere assumed. */
  readonly atmosphere: Fact<AbsolutePascal>;
};

/** What the site must keep to. Assumed where not given, and said so. */
export type AcceptanceLimits = {
  readonly startsPerHour: Fact<number> | null;
  readonly driftAtSteadyFlow: Fact<PascalDifference>;
  readonly oscillationPeakToPeak: Fact<PascalDifference>;
  readonly band: Fact<PascalDifference>;
  /** Least share of running time within the band, worst dip below the set pressure, longest pipe from sensor to tank; null: as is usual. */
  readonly shareWithinBand: Fact<number> | null;
  readonly worstDip: Fact<PascalDifference> | null;
  readonly sensorToTank: Fact<Metre> | null;
};
