import type { Analysis } from "../../shared/findings/analysis";
import type { CannotTell } from "../../shared/findings/cannot-tell";
import type { Failure } from "../../shared/findings/failure";
import { inGauge } from "../../shared/record/in-gauge";
import type { LogRecord } from "../../shared/record/log-record";
import { FINDINGS_FORMAT, FINDINGS_VERSION, type FindingsDocument, type FindingsError } from "../../shared/schemas/findings-document";
import { NO_SITE_FACTS } from "../../shared/site/read-site-facts";
import type { UnitChoice } from "../../shared/units/unit-choice";
import { PROGRAM_VERSION } from "../../shared/version";
import { sayFailure } from "../../shared/wording/failure";
import { acceptanceSheet } from "../acceptance/acceptance-sheet";
import { whyNoCause } from "../diagnosis/diagnose";
import { notMet, writeAcceptance } from "./acceptance-part";
import { writeAdvice, writeCauses } from "./advice-part";
import { writeFindingParts } from "./findings-part";
import { inNineFigures } from "./nine-figures";
import { writeRecord } from "./record-part";
import { writeSite } from "./site-part";
import { collectCannotTell, ownUp, writeCannotTell, writeStory } from "./story-part";

const HEAD = { format: FINDINGS_FORMAT, version: FINDINGS_VERSION, program: PROGRAM_VERSION } as const;

/** The findings document of one analysis, complete in shape, its numbers in nine figures; `units` only choose how its sentences read. */
export function writeFindings(record: LogRecord, analysis: Analysis, units: UnitChoice): FindingsDocument {
  const failures: Failure[] = [...analysis.failures];
  const sheet = acceptanceSheet(inGauge(record, analysis.site.atmosphere.value), analysis, (failure) => void failures.push(failure));
  const acceptance = writeAcceptance(sheet, units);
  return inNineFigures({
    ...HEAD,
    error: null,
    record: writeRecord(record, analysis.faults, units.locale),
    site: writeSite(analysis.site),
    ...writeFindingParts(record, analysis),
    causes: writeCauses(analysis.causes, units),
    cannotTell: writeCannotTell([...collectCannotTell(analysis.outcomes, analysis.segments), ...noCause(record, analysis)], units),
    advice: writeAdvice(analysis.advice, notMet(acceptance), units),
    acceptance,
    findings: writeStory(record.clock, analysis, units),
    failures: failures.map((failure) => ({ part: failure.part, id: failure.id, text: sayFailure(failure) })),
  });
}

/** Why no cause is named; empty where causes are. */
function noCause(record: LogRecord, { causes, segments, site }: Analysis): CannotTell[] {
  const why = causes.length > 0 ? null : whyNoCause(segments, site, inGauge(record, site.atmosphere.value));
  return why === null ? [] : [ownUp(why, segments)];
}

/** The document of a file that could not be read: the same shape, with the error filled in and nothing else. */
export function refusedDocument(error: FindingsError): FindingsDocument {
  return {
    ...HEAD,
    error,
    record: {
      files: [],
      clock: null,
      zone: null,
      from: null,
      to: null,
      rows: { accepted: 0, rejected: 0, duplicate: 0, reordered: 0 },
      rejects: [],
      channels: [],
      columns: [],
      questions: [],
      notes: [],
      faults: [],
    },
    site: {},
    running: { basis: null, runs: [] },
    cycling: {
      starts: null,
      peakStartsPerHour: null,
      allowedStartsPerHour: null,
      shortCycle: { limitS: NO_SITE_FACTS.shortCycleLimit.value, count: null, countLow: null, countHigh: null, runs: [] },
      medianRunS: null,
      medianRestS: null,
      cutInPa: null,
      cutOutPa: null,
    },
    oscillation: { episodes: [] },
    drift: { limitPa: NO_SITE_FACTS.limits.driftAtSteadyFlow.value, windows: [] },
    tracking: { setPressurePa: null, meanErrorPa: null, shareWithinBand: null, bandPa: null, lowestPa: null, highestPa: null },
    tank: { gasConstantJ: null, emptiesAtPa: null, emptiesBelowPa: null, liveDrawdownM3: null, expectedGasConstantJ: null },
    leak: { flowM3s: null, side: "unknown", minimumNightFlowM3s: null },
    sensor: { noisePa: null, noiseGrowsWithFlow: null, lagS: null },
    causes: [],
    cannotTell: [],
    advice: [],
    acceptance: [],
    findings: [],
    failures: [],
  };
}
