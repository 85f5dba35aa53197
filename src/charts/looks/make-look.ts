import type { Analysis } from "../../../shared/findings/analysis";
import { findingOf } from "../../../shared/findings/finding";
import { isCannotTell, type Run } from "../../../shared/findings/segment";
import type { Span } from "../../../shared/findings/span";
import { mainChannel } from "../../../shared/record/find-channel";
import { inGauge } from "../../../shared/record/in-gauge";
import type { Channel, LogRecord } from "../../../shared/record/log-record";
import { cycleOverlay } from "./cycle-overlay";
import { driftWindow, leakFit, windowAt } from "./fitted-stretch";
import { restLengths, runLengths } from "./lengths";
import type { Look, LookRequest } from "./look";
import { pressureAgainstFlow } from "./pressure-against-flow";
import { startsByHour } from "./starts-by-hour";
import { agreement, episodeAt, periodogram } from "./swings";
import { tankLine } from "./tank-line";

/** Works one picture out of a record and what was found in it. */
export function makeLook(request: LookRequest, whole: LogRecord, analysis: Analysis): Look {
  const { site, segments, outcomes } = analysis;
  const record = inGauge(whole, site.atmosphere.value);
  const pressure = mainChannel(record, "pressure");
  const runs = isCannotTell(segments.pump) ? [] : segments.pump.runs;
  const { place } = request;
  switch (request.look) {
    case "cycle-overlay":
      return cycleOverlay(pressure, runs, place);
    case "run-lengths":
      return runLengths(runs, site.shortCycleLimit.value);
    case "rest-lengths":
      return restLengths(runs);
    case "starts-by-hour":
      return startsByHour(runs, record.duration, record.clock, findingOf(outcomes, "cycling")?.allowedStartsPerHour ?? null);
    case "periodogram":
    case "autocorrelation": {
      const episode = episodeAt(findingOf(outcomes, "oscillation")?.episodes ?? [], place);
      const channel = record.channels.find(({ heading }) => heading === episode?.channel) ?? null;
      return request.look === "periodogram" ? periodogram(channel, episode) : agreement(channel, episode);
    }
    case "pressure-against-flow":
      return droop(record, pressure, runs, analysis);
    case "tank-line":
      return tankLine(isCannotTell(segments.tank) ? null : segments.tank, site.atmosphere.value);
    case "drift-window": {
      const drift = findingOf(outcomes, "drift");
      return driftWindow(pressure, windowAt(drift?.windows ?? [], place), drift?.limit ?? site.limits.driftAtSteadyFlow.value);
    }
    case "leak-fit":
      return leakFit(pressure, longestOrChosen(findingOf(outcomes, "leak-down")?.places ?? [], place), site.atmosphere.value);
  }
}

function droop(record: LogRecord, pressure: Channel | null, runs: readonly Run[], { outcomes }: Analysis): Look {
  return pressureAgainstFlow(pressure, mainChannel(record, "flow"), runs, findingOf(outcomes, "tracking")?.droop?.value ?? null);
}

function longestOrChosen(places: readonly Span[], place: Span | null): Span | null {
  const chosen = places.find(({ from, to }) => place !== null && from <= place.to && to >= place.from);
  return chosen ?? places.reduce<Span | null>((a, b) => (a === null || b.to - b.from > a.to - a.from ? b : a), null);
}
