import { expect, test } from "vitest";
import { FINDING_KINDS, type FindingKind, type FindingOf } from "../../shared/findings/finding";
import { METHODS, WRONG_IF } from "../../shared/wording/finding";

type Scalars<F> = { [K in keyof F]-?: NonNullable<F[K]> extends number ? K : never }[keyof F];

const COUNTED = "a count of what is in the record";
const READ = "a recorded sample as it stands, an extreme or a middle of many";
const FACT = "a fact of the site or a limit, as given or assumed";
const LAW = "worked out from facts of the site by a law; the facts carry no interval";
const SUMMED = "a sum over the record; the meter's own error is not known";

/**
 * Why a number of a finding has no interval. A number without one does not compile until its reason stands here; all other numbers
 * are `Measured` and carry their 95 % interval.
 */
const NO_INTERVAL: { readonly [K in FindingKind]: { readonly [S in Scalars<FindingOf<K>>]: string } } = {
  "over-marked-pressure": { marked: FACT, highest: READ, total: SUMMED },
  cycling: {
    starts: COUNTED,
    peakStartsPerHour: COUNTED,
    allowedStartsPerHour: FACT,
    medianRun: READ,
    medianRest: READ,
    startsAtNight: COUNTED,
    expectedShortestCycle: LAW,
  },
  "short-cycles": { limit: FACT, shortest: READ },
  oscillation: {},
  drift: { limit: FACT },
  tracking: { setPressure: FACT, meanError: READ, band: FACT, shareWithinBand: COUNTED, lowest: READ, highest: READ },
  "tank-charge": { emptiesBelow: READ, expectedGasConstant: LAW },
  "leak-down": { minimumNightFlow: READ },
  sensor: { noise: READ, scaleRatio: READ },
  "pump-performance": { shutoffPressure: READ, expectedShutoff: LAW, peakFlow: READ },
  demand: { volumePerDay: SUMMED, peakHourVolume: SUMMED, draws: COUNTED, observed: SUMMED },
};

test.each(FINDING_KINDS)("%s: every number has its interval or its reason for none, its method, and what would make it wrong", (kind) => {
  for (const [field, reason] of Object.entries(NO_INTERVAL[kind])) expect(reason.length, field).toBeGreaterThan(20);
  expect(METHODS[kind]).toMatch(/\S.{10,}\.$/);
  expect(WRONG_IF[kind]).toMatch(/\S.{10,}\.$/);
});
