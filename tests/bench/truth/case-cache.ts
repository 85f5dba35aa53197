import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { deserialize, serialize } from "node:v8";
import { gunzipSync, gzipSync } from "node:zlib";
import { detectAll } from "../../../analysis/detectors";
import type { Sight } from "../../../analysis/diagnosis/observations/sight";
import { withPumpKind } from "../../../analysis/diagnosis/pump-kind";
import { findFaults } from "../../../analysis/faults";
import { findSegments } from "../../../analysis/segments";
import { CAUSE_IDS, type CauseId } from "../../../shared/findings/cause";
import { inGauge } from "../../../shared/record/in-gauge";
import { causeCase } from "./cause-sites";

/** A simulated site with everything that an observation may look at. */
export type SeenCase = { readonly truth: CauseId; readonly seed: number; readonly sight: Sight };

/**
 * Folder to keep simulated sites in between runs, with what the detectors said of them, so that a change of the diagnosis is weighed without simulating
 * anew; unset: none are kept. Delete it after a change of the model or of what runs before the diagnosis.
 */
const KEPT = process.env.CAUSE_CASES;

function simulated(truth: CauseId, seed: number): Sight {
  const { record: asRead, facts: site } = causeCase(truth, seed * 100 + CAUSE_IDS.indexOf(truth));
  const record = inGauge(asRead, site.atmosphere.value);
  const faults = findFaults(record);
  const segments = findSegments(record, faults, site);
  return { record, site, segments, outcomes: detectAll({ record, faults, segments, site }) };
}

/** The site of a cause and a seed, from disk where it was simulated before. */
export function seenCase(truth: CauseId, seed: number): SeenCase {
  return { truth, seed, sight: withPumpKind(keptOrNew(truth, seed)) };
}

function keptOrNew(truth: CauseId, seed: number): Sight {
  if (KEPT === undefined) return simulated(truth, seed);
  mkdirSync(KEPT, { recursive: true });
  const path = join(KEPT, `${truth}-${seed}.gz`);
  if (existsSync(path)) return deserialize(gunzipSync(readFileSync(path))) as Sight;
  const sight = simulated(truth, seed);
  writeFileSync(path, gzipSync(serialize(sight), { level: 1 }));
  return sight;
}
