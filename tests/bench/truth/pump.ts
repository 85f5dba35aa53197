import { findFaults } from "../../../analysis/faults";
import { demandOf } from "../../../analysis/model/demand";
import { simulateSite } from "../../../analysis/model/simulate-site";
import { visitRecord } from "../../../analysis/model/visit-record";
import { columnExtent } from "../../../analysis/numerics/column-extent";
import { findSegments } from "../../../analysis/segments";
import type { CauseId } from "../../../shared/findings/cause";
import { isCannotTell } from "../../../shared/findings/segment";
import type { ChannelRole } from "../../../shared/record/channel-role";
import type { Channel, LogRecord, Sampling } from "../../../shared/record/log-record";
import { timesOf } from "../../../shared/record/sampling";
import { readSiteFacts } from "../../../shared/site/read-site-facts";
import { seconds } from "../../../shared/units/quantity";
import { causeVisit } from "./cause-sites";
import { type Matches, matchInstants } from "./match-instants";

/**
 * Starts and stops of the pump by each witness and each way of logging, against the truth of simulated sites, sound ones and those whose pump
 * runs oddly: a table in Markdown on stdout, with PUMP_WORST set the sites below 97 % on stderr. Arguments: sites a kind, first seed. No fact is told. Each site is logged once, every half second with
 * all channels, and every log is made from that one.
 */
const count = Number(process.argv[2] ?? 4);
const firstSeed = Number(process.argv[3] ?? 71_000);
const DURATION = 6 * 3600;
const BASE = 0.5;
const LEAST = 0.97;
const KINDS: readonly CauseId[] = [
  "healthy",
  "tank-too-small",
  "precharge-high",
  "tank-waterlogged",
  "loop-too-aggressive",
  "leak-or-check-valve",
  "sleep-settings-hunting",
  "demand-is-periodic",
];
const WITNESSES: readonly (readonly ChannelRole[])[] = [
  ["running"],
  ["pressure", "running"],
  ["speed"],
  ["pressure", "speed"],
  ["current"],
  ["pressure", "current"],
  ["power"],
  ["pressure", "power"],
  ["flow"],
  ["pressure", "flow"],
  ["pressure"],
];
const LOGGERS = [0.5, 1, 2, 5, "on change", "each on change"] as const;
type Logger = (typeof LOGGERS)[number];
/** Part of the highest reading by which one must move to be written. */
const DEAD_BAND = 0.01;
const SCAN = 1; // s

type Site = { readonly record: LogRecord; readonly starts: readonly number[]; readonly stops: readonly number[] };

function siteOf(kind: CauseId, seed: number): Site {
  const { draft, as } = causeVisit(kind, seed);
  const channels = ["pressure", "flow", "speed", "running", "current", "power"] as const;
  const meter = { ...draft.site.logger.meter, place: "before-tank" as const };
  const logger = { ...draft.site.logger, channels, meter, interval: BASE, jitter: 0, missing: 0, gaps: [] };
  const demand = demandOf(draft.events, as.cutIn ?? as.set, draft.exponent);
  const visit = simulateSite({ ...draft.site, logger }, demand, Math.min(DURATION, draft.duration), seed);
  const { runs } = visit.truth;
  return { record: visitRecord(visit), starts: runs.map(({ from }) => from), stops: runs.map(({ to }) => to) };
}

function logged(record: LogRecord, roles: readonly ChannelRole[], logger: Logger): LogRecord {
  const kept = record.channels.filter(({ role }) => roles.includes(role));
  if (logger === "each on change") return { ...record, channels: kept.flatMap((channel) => onChange([channel], record.duration)) };
  return { ...record, channels: logger === "on change" ? onChange(kept, record.duration) : every(kept, logger) };
}

function every(channels: readonly Channel[], interval: number): Channel[] {
  const stride = Math.round(interval / BASE);
  const count = Math.ceil(channels[0].values.length / stride);
  const sampling: Sampling = { kind: "even", start: seconds(0), step: seconds(interval), count };
  return channels.map((c) => ({ ...c, sampling, values: Float32Array.from({ length: count }, (_, i) => c.values[i * stride]) }));
}

/** A row whenever one of the channels has moved out of its dead band since it was last written. */
function onChange(channels: readonly Channel[], until: number): Channel[] {
  const times = timesOf(channels[0].sampling);
  const bands = channels.map(({ values }) => DEAD_BAND * columnExtent(values).high);
  const rows: number[] = [];
  for (let i = 0; i < times.length; i += SCAN / BASE) {
    const last = rows.at(-1);
    if (last === undefined || channels.some(({ values }, c) => Math.abs(values[i] - values[last]) > bands[c])) rows.push(i);
  }
  const sampling: Sampling = { kind: "on-change", times: Float64Array.from(rows, (i) => times[i]), until: seconds(until) };
  return channels.map((channel) => ({ ...channel, sampling, values: Float32Array.from(rows, (i) => channel.values[i]) }));
}

/** Instants next to no other within two intervals: between two samples a run or a rest cannot be seen. */
function visible(truth: Site, interval: number): { starts: number[]; stops: number[] } {
  const all = [...truth.starts, ...truth.stops].sort((a, b) => a - b);
  const lone = (t: number) => {
    const i = all.indexOf(t);
    return !(t - all[i - 1] < 2 * interval) && !(all[i + 1] - t < 2 * interval);
  };
  return { starts: truth.starts.filter(lone), stops: truth.stops.filter(lone) };
}

/** Those found that are true, and those to be seen that are found. */
type Score = { readonly right: Matches; readonly seen: Matches };
type Judged = { readonly starts: Score; readonly stops: Score; readonly told: boolean };

function judge(site: Site, roles: readonly ChannelRole[], logger: Logger): Judged {
  const log = logged(site.record, roles, logger);
  const faults = findFaults(log);
  const { pump } = findSegments(log, faults, readSiteFacts({}, "bench"));
  const interval = typeof logger === "number" ? logger : SCAN;
  const within = Math.max(3, 2 * interval);
  const runs = isCannotTell(pump) || pump.mode === "always-stopped" ? [] : pump.runs;
  const toSee = visible(site, interval);
  const inside = (t: number) => t > within && t < site.record.duration - within;
  const score = (found: readonly number[], truth: readonly number[], visible: readonly number[]): Score => ({
    right: matchInstants(found.filter(inside), truth, within),
    seen: matchInstants(found, visible.filter(inside), within),
  });
  const starts = runs.map(({ from }) => from);
  const stops = runs.map(({ to }) => to);
  return {
    starts: score(starts, site.starts, toSee.starts),
    stops: score(stops, site.stops, toSee.stops),
    told: !isCannotTell(pump),
  };
}

const percent = (part: number, of: number) => (of === 0 ? "-" : `${((100 * part) / of).toFixed(1)}`);
const sum = (all: readonly Matches[], of: (m: Matches) => number) => all.reduce((total, m) => total + of(m), 0);
const matched = (m: Matches) => m.matched;
const both = (all: readonly Score[]) => {
  const [right, seen] = [all.map((s) => s.right), all.map((s) => s.seen)];
  const precision = percent(
    sum(right, matched),
    sum(right, (m) => m.found),
  );
  const recall = percent(
    sum(seen, matched),
    sum(seen, (m) => m.true),
  );
  return `${precision} / ${recall}`;
};
const line = (...cells: readonly (string | number)[]) => console.log(`| ${cells.join(" | ")} |`);

const sites = KINDS.flatMap((kind) =>
  Array.from({ length: count }, (_, i) => ({ kind, seed: firstSeed + i, site: siteOf(kind, firstSeed + i) })),
);
console.log("");
const heads = ["log", "logged", "sites told", "starts: precision / recall, %", "stops: precision / recall, %"];
line(...heads);
line(...heads.map(() => "---"));
for (const roles of WITNESSES)
  for (const logger of LOGGERS) {
    const scores = sites.map(({ site }) => judge(site, roles, logger));
    if (process.env.PUMP_WORST !== undefined)
      scores.forEach(({ starts, stops }, i) => {
        const bad = ({ right, seen }: Score) => right.matched < LEAST * right.found || seen.matched < LEAST * seen.true;
        const say = ({ right, seen }: Score) => `${right.matched} of ${right.found} right, ${seen.matched} of ${seen.true} seen`;
        if (bad(starts) || bad(stops))
          console.error(`${roles.join("+")} ${logger} ${sites[i].kind} ${sites[i].seed}: starts ${say(starts)}; stops ${say(stops)}`);
      });
    line(
      roles.join(", "),
      typeof logger === "number" ? `${logger} s` : logger,
      `${scores.filter(({ told }) => told).length} of ${sites.length}`,
      both(scores.map(({ starts }) => starts)),
      both(scores.map(({ stops }) => stops)),
    );
  }
