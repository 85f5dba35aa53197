import { simulateSite } from "../../../analysis/model/simulate-site";
import type { SiteModel } from "../../../analysis/model/site-model";
import { visitRecord } from "../../../analysis/model/visit-record";
import { seededRandom } from "../../../analysis/numerics/random";
import type { LogRecord } from "../../../shared/record/log-record";
import { readSiteFacts } from "../../../shared/site/read-site-facts";
import type { SiteFacts } from "../../../shared/site/site-facts";
import { PASCAL_PER_PSI as PSI } from "../../../shared/units/pressure";
import { driveOf, withDrive, withGain } from "../../builders/model-sites";
import { randomDemand, randomSite } from "../../builders/random-sites";

/** What was wrong with a site, or nothing. */
export const PAIR_FAULTS = ["none", "low charge", "hot loop", "short sleep delay"] as const;
export type PairFault = (typeof PAIR_FAULTS)[number];

/** Two visits of one site under other demand, with what is known of it; `before` always has the fault. */
export type ChangePair = { readonly before: LogRecord; readonly after: LogRecord; readonly facts: SiteFacts };

const faulty = (site: SiteModel, fault: PairFault): SiteModel => {
  switch (fault) {
    case "none":
      return site;
    case "low charge":
      return { ...site, tank: { ...site.tank, precharge: Math.max(2 * PSI, site.tank.precharge * 0.3) } };
    case "hot loop":
      return withGain(site, 4);
    case "short sleep delay":
      return withDrive(site, { sleepDelay: Math.min(3, driveOf(site).sleepDelay), boost: 0.5 * PSI });
  }
};

const HOUR = 3600;
const CHANNELS = [["pressure", "flow", "speed"], ["pressure", "speed"], ["pressure", "flow", "running"], ["pressure"]] as const;
const WITHOUT_FLOW = [["pressure", "speed"], ["pressure"], ["pressure", "running"]] as const;
/** Hours of the two visits, any with any, or never as long as one another. */
const ANY = [12, 24, 36].flatMap((a) => [12, 24, 36].map((b) => [a, b]));
const UNLIKE = ANY.filter(([a, b]) => a !== b);

/**
 * @param isMended the fault is gone at the second visit; else nothing changed but the demand and the logger's chance
 * @param slowerBy the second logger's interval over the first's
 * @param isUnlike the visits differ in length, and no flow tells the use
 */
export function changePair(seed: number, fault: PairFault, isMended: boolean, slowerBy: number, isUnlike = false): ChangePair {
  const random = seededRandom(seed + 104_729);
  const sound = randomSite(seed);
  const interval = [1, 2][random.below(2)];
  const mixes = isUnlike ? WITHOUT_FLOW : CHANNELS;
  const channels = mixes[random.below(mixes.length)];
  const lengths = isUnlike ? UNLIKE : ANY;
  const [first, second] = lengths[random.below(lengths.length)];
  const visit = (site: SiteModel, step: number, own: number, hours: number) => {
    const duration = hours * HOUR;
    const logged = { ...site, logger: { ...site.logger, interval: step, channels } };
    return visitRecord(simulateSite(logged, randomDemand(logged, duration, own), duration, own));
  };
  const before = visit(faulty(sound, fault), interval, 2 * seed + 1, first);
  const after = visit(isMended ? sound : faulty(sound, fault), interval * slowerBy, 2 * seed + 2, second);
  const psi = (pa: number) => `${(pa / PSI).toFixed(1)} psi`;
  const set = driveOf(sound).setPressure;
  const facts = readSiteFacts({ setPressure: psi(set), pump: "variable-speed", limits: { startsPerHour: 6 } }, "");
  return { before, after, facts };
}
