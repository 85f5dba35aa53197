import { detectAll } from "../../../analysis/detectors";
import { findFaults } from "../../../analysis/faults";
import { demandOf } from "../../../analysis/model/demand";
import { householdDraws } from "../../../analysis/model/draws";
import { type SimulatedVisit, simulateSite } from "../../../analysis/model/simulate-site";
import { type LoggedChannel, type SiteModel, tankEmptiesAt } from "../../../analysis/model/site-model";
import { soundSite, withSwitch } from "../../../analysis/model/sound-site";
import { shortRuns } from "../../../analysis/model/truth";
import { visitRecord } from "../../../analysis/model/visit-record";
import { seededRandom } from "../../../analysis/numerics/random";
import { findSegments } from "../../../analysis/segments";
import { findingOf } from "../../../shared/findings/finding";
import { isCannotTell } from "../../../shared/findings/segment";
import { readSiteFacts } from "../../../shared/site/read-site-facts";
import { PASCAL_PER_PSI as PSI } from "../../../shared/units/pressure";
import { type Matches, matchInstants } from "./match-instants";

/**
 * Pump states, short cycles, tanks and leaks against the truth of simulated sites: a table in Markdown on stdout. Argument: sites a row.
 * A drive's stop that pressure alone cannot show is counted as missed.
 */
const count = Number(process.argv[2] ?? 8);
const GPM = 3.785411784e-3 / 60; // m3/s
const DURATION = 8 * 3600;

type Row = {
  readonly name: string;
  readonly channels: readonly LoggedChannel[];
  readonly interval: number;
  readonly fixed?: boolean;
  readonly leak?: "system" | "back";
  readonly precharge?: number;
};
const ROWS: readonly Row[] = [
  { name: "drive: flag", channels: ["pressure", "flow", "running"], interval: 1 },
  { name: "drive: speed", channels: ["pressure", "flow", "speed"], interval: 1 },
  { name: "drive: current, 5 s", channels: ["pressure", "flow", "current"], interval: 5 },
  { name: "drive: pressure and flow", channels: ["pressure", "flow"], interval: 1 },
  { name: "drive: pressure", channels: ["pressure"], interval: 1 },
  { name: "drive: tank near empty at restart", channels: ["pressure", "flow", "speed"], interval: 1, precharge: -1 },
  { name: "drive: leak in the system", channels: ["pressure", "flow", "speed"], interval: 1, leak: "system" },
  { name: "drive: leak back", channels: ["pressure", "flow", "speed"], interval: 1, leak: "back" },
  { name: "switch: current", channels: ["pressure", "flow", "current"], interval: 1, fixed: true },
  { name: "switch: pressure and flow", channels: ["pressure", "flow"], interval: 1, fixed: true },
  { name: "switch: pressure", channels: ["pressure"], interval: 1, fixed: true },
  { name: "switch: pressure, 5 s", channels: ["pressure"], interval: 5, fixed: true },
];

function visit(row: Row, seed: number): SimulatedVisit {
  const random = seededRandom(seed);
  const set = (50 + 15 * random.next()) * PSI;
  const below = row.precharge === undefined ? 0.72 : 0.93; // of the set pressure; restart lies near 0.9
  const base = soundSite({
    setPressure: set,
    ratedFlow: (20 + 30 * random.next()) * GPM,
    ratedRise: set * 1.2,
    tankVolume: (row.fixed ? 80 : 20) * 60 * GPM,
    precharge: row.fixed ? 0.62 * set : below * set,
    pipeLength: 2,
    bore: 0.041,
  });
  const driven = row.fixed ? withSwitch(base, 0.66 * set, set) : base;
  const site: SiteModel = {
    ...driven,
    systemLeak: row.leak === "system" ? 0.3 * GPM : 0,
    backLeak: row.leak === "back" ? 0.3 * GPM : 0,
    logger: { ...driven.logger, channels: row.channels, interval: row.interval },
  };
  return simulateSite(site, demandOf(householdDraws(8, DURATION, seed, 6), set), DURATION, seed);
}

type Score = {
  starts: Matches;
  stops: Matches;
  shortsExact: boolean;
  /** Exact but for runs that the answer itself names as too near to the limit. */
  shortsHonest: boolean;
  tank: { error: number; inside: boolean } | null;
  knee: number | null;
  leak: number | null;
  side: string | null;
};

function judge(row: Row, seed: number): Score {
  const simulated = visit(row, seed);
  const record = visitRecord(simulated);
  const site = readSiteFacts({ flowMeter: "after-tank", pump: row.fixed ? "fixed-speed" : "variable-speed" }, "bench");
  const faults = findFaults(record);
  const segments = findSegments(record, faults, site);
  const outcomes = detectAll({ record, faults, segments, site });
  const { truth } = simulated;
  const within = Math.max(3, 2 * row.interval);
  const seen = isCannotTell(segments.pump) ? [] : segments.pump.runs;
  const inside = (t: number) => t > within && t < DURATION - within;
  const { tank } = segments;
  const leak = findingOf(outcomes, "leak-down");
  const short = findingOf(outcomes, "short-cycles")?.runs.length ?? 0;
  const shortsOff = Math.abs(short - shortRuns(truth, site.shortCycleLimit.value));
  const named = outcomes.flatMap((o) => (o.kind === "short-cycles" && (o.state === "found" || o.state === "clear") ? o.limits : []));
  return {
    starts: matchInstants(seen.map((r) => r.from).filter(inside), truth.runs.map((r) => r.from).filter(inside), within),
    stops: matchInstants(seen.map((r) => r.to).filter(inside), truth.runs.map((r) => r.to).filter(inside), within),
    shortsExact: shortsOff === 0,
    shortsHonest: shortsOff <= named.reduce((most, { detail }) => Math.max(most, Number(detail.unsureRuns ?? 0)), 0),
    tank: isCannotTell(tank)
      ? null
      : {
          error: Math.abs(tank.gasConstant.value / truth.gasConstant - 1),
          inside: tank.gasConstant.low <= truth.gasConstant && truth.gasConstant <= tank.gasConstant.high,
        },
    knee: isCannotTell(tank) || tank.emptiesAt === null ? null : Math.abs(tank.emptiesAt.value - tankEmptiesAt(simulated.site)) / PSI,
    leak: leak === null || row.leak === undefined ? null : Math.abs(leak.flow.value / (0.3 * GPM) - 1),
    side: leak?.side ?? null,
  };
}

const percent = (part: number, of: number) => (of === 0 ? "-" : `${((100 * part) / of).toFixed(1)} %`);
const middle = (values: readonly number[]) => (values.length === 0 ? Number.NaN : [...values].sort((a, b) => a - b)[values.length >> 1]);
const line = (...cells: readonly (string | number)[]) => console.log(`| ${cells.join(" | ")} |`);
const both = (all: readonly Matches[]) => {
  const sum = (of: (m: Matches) => number) => all.reduce((total, m) => total + of(m), 0);
  return `${percent(
    sum((m) => m.matched),
    sum((m) => m.found),
  )} / ${percent(
    sum((m) => m.matched),
    sum((m) => m.true),
  )}`;
};

console.log("");
const heads = [
  "log",
  "sites",
  "starts: precision / recall",
  "stops: precision / recall",
  "short cycles exact",
  "but for named ones",
  "K: median error",
  "K inside its interval",
  "knee: median error, psi",
  "leak: median error",
  "leak side",
];
line(...heads);
line(...heads.map(() => "---"));
for (const row of ROWS) {
  const scores = Array.from({ length: count }, (_, i) => judge(row, 20_000 + i));
  const tanks = scores.flatMap(({ tank }) => tank ?? []);
  const leaks = scores.flatMap(({ leak }) => leak ?? []);
  const knees = scores.flatMap(({ knee }) => knee ?? []);
  line(
    row.name,
    count,
    both(scores.map((s) => s.starts)),
    both(scores.map((s) => s.stops)),
    percent(scores.filter((s) => s.shortsExact).length, count),
    percent(scores.filter((s) => s.shortsHonest).length, count),
    tanks.length === 0 ? "-" : percent(middle(tanks.map((t) => t.error)), 1),
    percent(tanks.filter((t) => t.inside).length, tanks.length),
    knees.length === 0 ? "-" : `${middle(knees).toFixed(1)} (${knees.length})`,
    leaks.length === 0 ? "-" : percent(middle(leaks), 1),
    [...new Set(scores.map((s) => s.side ?? "none"))].join(", "),
  );
}
