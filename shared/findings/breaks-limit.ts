import type { SiteFacts } from "../site/site-facts";
import type { Finding } from "./finding";
import { strongestEpisode } from "./strongest-episode";

/** Whether a finding breaks an acceptance limit of the site; null where there is no limit for it. */
export function breaksLimit(finding: Finding, site: SiteFacts): boolean | null {
  switch (finding.kind) {
    case "over-marked-pressure":
    case "short-cycles":
    case "leak-down":
      return true;
    case "cycling": {
      const limit = site.limits.startsPerHour?.value ?? finding.allowedStartsPerHour;
      return limit === null ? null : finding.peakStartsPerHour > limit;
    }
    case "oscillation":
      return (strongestEpisode(finding.episodes)?.peakToPeak.value ?? 0) > site.limits.oscillationPeakToPeak.value;
    case "drift":
      return finding.windows.some((w) => w.over);
    case "pump-performance":
      return finding.lossOfPrime.length + finding.overdraw.length > 0;
    case "sensor":
      return finding.stuck.length + finding.frozen.length + finding.pinned.length > 0 || finding.noiseGrowsWithFlow === true ? true : null;
    default:
      return null;
  }
}
