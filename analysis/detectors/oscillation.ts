import type { CannotTell } from "../../shared/findings/cannot-tell";
import type { OscillationEpisode, Outcome } from "../../shared/findings/finding";
import { isCannotTell } from "../../shared/findings/segment";
import type { Span } from "../../shared/findings/span";
import { mainChannel } from "../../shared/record/find-channel";
import { valueStep } from "../numerics/value-step";
import { evenStretches } from "../segments/even-stretch";
import type { Detector, Evidence } from "./detector";
import { isCycling } from "./oscillation/cycling-wave";
import { describeEpisode } from "./oscillation/describe-episode";
import { episodeSpans, groupCandidates } from "./oscillation/episode-span";
import { joinEpisodes } from "./oscillation/join-episodes";
import { hiddenBySampling } from "./oscillation/what-cannot-be-seen";
import { searchStretch } from "./oscillation/window-search";

/** Chance of a false window in a whole record of pure noise of any colour, before the checks in time. */
const LEVEL = 0.001;
/** Waves below this part of the site's limit are not claimed: no tank, drive or fixture notices them. Common practice, no source. */
const FLOOR_OF_LIMIT = 0.1;
/** Waves below this many steps of the values are not claimed. */
const FLOOR_OF_STEP = 3;

/** Slower waves are those of the day (24 h and its parts), of tides and of reservoirs that fill and empty: no loop or tank takes hours. Ours, no source. */
const SLOWEST_WAVE = 7200; // s

/**
 * Does the pressure swing to and fro while the pump runs? Windows of many lengths are searched for a wave that stands out of its local
 * background and keeps on in time; they join to episodes whose period is refined by least squares.
 * Wrong where a draw or another pump happens to repeat like a clock (then `drivenBy` may tell), and for waves that fold from above half
 * the sampling rate. Starting and stopping is cycling, not oscillation.
 * Sources: Thornhill, Huang & Zhang 2003 (regularity); Mann & Lees 1996 (background); Rife & Boorstyn 1974 (bound of the period).
 */
export const oscillation: Detector<"oscillation"> = {
  kind: "oscillation",
  detect(evidence: Evidence): Outcome<"oscillation"> {
    const channel = mainChannel(evidence.record, "pressure");
    if (channel === null) return cannotTell({ id: "no-pressure-channel", about: "oscillation", detail: {} });
    const watched = whileRunning(evidence);
    if (watched !== null && watched.length === 0) return cannotTell({ id: "nothing-to-see", about: "oscillation", detail: {} });
    const stretches = evenStretches(channel, evidence.faults, watched);
    const largest = evidence.site.limits.oscillationPeakToPeak.value;
    const hidden = hiddenBySampling(channel, stretches, watched, evidence.record.duration, largest);
    const leastPeakToPeak = Math.max(FLOOR_OF_LIMIT * largest, FLOOR_OF_STEP * valueStep(channel.values));
    const samples = stretches.reduce((sum, s) => sum + s.values.length, 0);
    const limits = { leastAmplitude: 0.7 * (leastPeakToPeak / 2), logLevel: Math.log(LEVEL / Math.max(1, samples)) };
    const found = stretches.flatMap((stretch) =>
      groupCandidates(searchStretch(stretch, limits)).flatMap((group) =>
        episodeSpans(stretch, group).map((span) => describeEpisode(evidence, channel, group, span, leastPeakToPeak)),
      ),
    );
    const episodes = joinEpisodes(
      found.filter((e): e is OscillationEpisode => e !== null && e.period.value < SLOWEST_WAVE && !isCycling(e, evidence)),
      stretches,
    );
    const said = [...hidden.blocking, ...hidden.limits];
    if (episodes.length === 0) {
      return hidden.blocking.length > 0
        ? { kind: "oscillation", state: "cannot-tell", because: said }
        : { kind: "oscillation", state: "clear", limits: said };
    }
    const places = episodes.map(({ from, to }) => ({ from, to }));
    return {
      kind: "oscillation",
      state: "found",
      finding: { kind: "oscillation", places, channels: [channel.heading], episodes },
      limits: said,
    };
  },
};

const cannotTell = (reason: CannotTell): Outcome<"oscillation"> => ({ kind: "oscillation", state: "cannot-tell", because: [reason] });

/** The pump's runs; null for the whole record where the state is not known, or known from the pressure's own saw-tooth only. */
function whileRunning({ segments: { pump } }: Evidence): readonly Span[] | null {
  if (isCannotTell(pump) || pump.basis === "pressure") return null;
  if (pump.mode === "always-running") return pump.observed;
  return pump.runs;
}
