import type { CannotTell } from "../../shared/findings/cannot-tell";
import type { Cause } from "../../shared/findings/cause";
import { attempt, type OnFailure, raise } from "../../shared/findings/failure";
import type { Outcome } from "../../shared/findings/finding";
import { isCannotTell, type Segments } from "../../shared/findings/segment";
import { channelsOf, mainChannel } from "../../shared/record/find-channel";
import type { Channel, LogRecord } from "../../shared/record/log-record";
import type { SiteFacts } from "../../shared/site/site-facts";
import { fillsOpenTank } from "./fills-open-tank";
import { observeAll } from "./observations";
import { withPumpKind } from "./pump-kind";
import { rank } from "./rank";
import { separate } from "./separate";

/**
 * Least pressure that makes a log one of a pressurised water system, Pa gauge: 20 psi is asked for under all conditions at a service
 * (Ten-State Standards; WA, TX and NY rules), and half of it leaves room for a system in trouble.
 */
const LEAST_SERVICE_PRESSURE = 68948;
/** For this part of the record it must be reached: a service pressure is held, also where prime is lost for a while; noise and single steps only touch it. */
const LEAST_SHARE = 0.25;
/** Shorter records hold no cycle to judge by, s. */
const LEAST_DURATION = 120;

function reachesService({ values }: Channel): boolean {
  let there = 0;
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i])) continue;
    count++;
    if (values[i] >= LEAST_SERVICE_PRESSURE) there++;
  }
  return count > 0 && there >= LEAST_SHARE * count;
}

const namesSystem = (site: SiteFacts) =>
  [site.pump, site.setPressure, site.cutIn, site.cutOut, site.restartPressure, site.tankVolume, site.precharge, site.pumpRatedFlow].some(
    (f) => f !== null,
  );

const anotherPlant = (why: string): CannotTell => ({ id: "nothing-to-see", about: "cause", detail: { why } });

/**
 * Why no cause may be named, or null where one may. A log without pressure, one that never reaches a service pressure, and one without
 * any trace of a pump (and no facts of a system) is not known to be of a pumped water system; one of a difference of pressure, or of a pump that fills an open tank,
 * is of another plant.
 */
export function whyNoCause(segments: Segments, site: SiteFacts, record: LogRecord): CannotTell | null {
  const pressures = channelsOf(record, "pressure");
  if (pressures.length === 0) return { id: "no-pressure-channel", about: "cause", detail: {} };
  if (record.duration < LEAST_DURATION) return { id: "record-too-short", about: "cause", detail: { durationS: record.duration } };
  if (mainChannel(record, "pressure")?.position === "difference") return anotherPlant("pressure-difference");
  const pumpSeen = !isCannotTell(segments.pump);
  if (namesSystem(site)) return null;
  if (!pumpSeen) return { id: "no-pump-state", about: "cause", detail: {} };
  if (fillsOpenTank(segments, record)) return anotherPlant("pump-fills-a-tank");
  return pressures.some(reachesService) ? null : { id: "nothing-to-see", about: "cause", detail: { why: "no-service-pressure" } };
}

/**
 * Ranks the causes that could explain a record, with what speaks for and against each and what would part it from its rival.
 * @returns every cause of CAUSE_IDS, likeliest first, confidences summing to 1; empty where no cause may be named (`whyNoCause`)
 */
export function diagnose(
  outcomes: readonly Outcome[],
  segments: Segments,
  site: SiteFacts,
  record: LogRecord,
  onFailure: OnFailure = raise,
): Cause[] {
  if (whyNoCause(segments, site, record) !== null) return [];
  const given = { outcomes, segments, site, record };
  const sight = attempt("observation", "pump-kind", onFailure, () => withPumpKind(given), given);
  const observations = observeAll(sight, onFailure);
  const ranked = rank(observations);
  const checks = attempt("check-between-causes", "separate", onFailure, () => separate(ranked, observations, sight.site, record), []);
  return ranked.map((cause, i) => ({ ...cause, toSeparate: checks[i] ?? null }));
}
