import { detectAll } from "../../../analysis/detectors";
import { findFaults } from "../../../analysis/faults";
import { type FittedSite, fitSite } from "../../../analysis/model/fit";
import type { SimulatedVisit } from "../../../analysis/model/simulate-site";
import { type LoggedChannel, tankGasConstant } from "../../../analysis/model/site-model";
import { visitRecord } from "../../../analysis/model/visit-record";
import { measuresOf } from "../../../analysis/model/what-if/measures";
import { mostLikely, predict } from "../../../analysis/model/what-if/predict";
import { findSegments } from "../../../analysis/segments";
import type { MeasureId, ParameterId, PredictedMeasures } from "../../../shared/findings/what-if";
import { readSiteFacts } from "../../../shared/site/read-site-facts";
import { truthOf } from "../../builders/fitted-truth";
import { driveOf } from "../../builders/model-sites";
import { afterMend, predictionCase, SITE_KINDS, type SiteKind } from "./prediction-sites";

/**
 * The fit and its predictions against simulated sites: how often the truth lies in the interval claimed, for the parameters of the model and
 * for what a mend really did. Tables in Markdown on stdout. Arguments: sites a row, and the first seed.
 */
const sites = Number(process.argv[2] ?? 10);
const firstSeed = Number(process.argv[3] ?? 70_000);

const LOGS: readonly { readonly name: string; readonly channels: readonly LoggedChannel[]; readonly interval: number }[] = [
  { name: "pressure, flow, speed, 1 s", channels: ["pressure", "flow", "speed"], interval: 1 },
  { name: "pressure, flow, speed, 5 s", channels: ["pressure", "flow", "speed"], interval: 5 },
  { name: "pressure, flow, running, 2 s", channels: ["pressure", "flow", "running"], interval: 2 },
];

type Held = {
  readonly log: string;
  readonly kind: SiteKind;
  readonly id: ParameterId;
  readonly from: string;
  readonly inside: boolean;
  readonly off: number;
  readonly width: number;
};
type Met = {
  readonly log: string;
  readonly kind: SiteKind;
  readonly change: string;
  readonly id: MeasureId;
  readonly truth: number;
  readonly before: number;
  readonly told: PredictedMeasures[MeasureId];
};
const held: Held[] = [];
const met: Met[] = [];
const explained: { readonly log: string; readonly kind: SiteKind; readonly share: number | null }[] = [];

function fitOf(visit: SimulatedVisit, facts: Readonly<Record<string, unknown>>): FittedSite | null {
  const record = visitRecord(visit);
  const known = readSiteFacts(facts, "site.json");
  const faults = findFaults(record);
  const segments = findSegments(record, faults, known);
  return fitSite(record, segments, detectAll({ record, faults, segments, site: known }), known, faults);
}

/** The same measures of the truth itself, with its own settings for the stored water. */
function trueMeasures(visit: SimulatedVisit, fitted: FittedSite) {
  const { site, truth } = visit;
  const drive = driveOf(site);
  const values = {
    ...mostLikely(fitted),
    "gas-constant": tankGasConstant(site),
    "tank-volume": site.tank.volume,
    "restart-pressure": drive.restartPressure,
    "stop-pressure": drive.setPressure + drive.boost,
  };
  return measuresOf(truth, DURATION, LIMIT, values, site.atmosphere);
}
const DURATION = 43200;
const LIMIT = 60;

for (const { name: log, channels, interval } of LOGS) {
  for (const kind of SITE_KINDS) {
    for (let i = 0; i < sites; i++) {
      const seed = firstSeed + i;
      const { site, visit, facts, mends } = predictionCase(seed, kind, channels, interval);
      const fitted = fitOf(visit, facts);
      if (fitted === null) {
        console.log(`not fitted: ${log}, ${kind}, seed ${seed}`);
        continue;
      }
      explained.push({ log, kind, share: fitted.explained });
      for (const [id, truth] of Object.entries(truthOf(site)) as [ParameterId, number][]) {
        const p = fitted.parameters[id];
        const off = p.scale === "log" ? Math.log(p.value / truth) : (p.value - truth) / 6895;
        const width = p.scale === "log" ? Math.log(p.high / p.low) / 2 : (p.high - p.low) / 2 / 6895;
        held.push({ log, kind, id, from: p.from, inside: p.low <= truth && truth <= p.high, off, width });
      }
      const span = { from: 0, to: DURATION };
      const before = trueMeasures(visit, fitted);
      const now = predict(fitted, [], span, { shortCycleLimit: LIMIT });
      if (now !== null) note(log, kind, "as it is", before, before, now.measures);
      for (const { change, mended } of mends) {
        const told = predict(fitted, [change], span, { shortCycleLimit: LIMIT });
        if (told !== null) note(log, kind, change.id, trueMeasures(afterMend(mended, seed), fitted), before, told.measures);
      }
    }
  }
}

function note(
  log: string,
  kind: SiteKind,
  change: string,
  truth: Record<MeasureId, number>,
  before: Record<MeasureId, number>,
  told: PredictedMeasures,
) {
  for (const id of Object.keys(truth) as MeasureId[])
    met.push({ log, kind, change, id, truth: truth[id], before: before[id], told: told[id] });
}

const row = (...cells: readonly (string | number)[]) => console.log(`| ${cells.join(" | ")} |`);
const heads = (...cells: readonly string[]) => {
  console.log("");
  row(...cells);
  row(...cells.map(() => "---"));
};
const percent = (some: number, all: number) => (all === 0 ? "-" : `${Math.round((100 * some) / all)} %`);
const middle = (values: readonly number[]) => (values.length === 0 ? Number.NaN : [...values].sort((a, b) => a - b)[values.length >> 1]);
const unique = <T>(values: readonly T[]): T[] => [...new Set(values)];

heads("parameter", "n", "inside", ...SITE_KINDS, "usual", "median off", "median half-width");
for (const log of LOGS) {
  row(`**${log.name}**`, "", "", ...SITE_KINDS.map(() => ""), "", "", "");
  const mine = held.filter((h) => h.log === log.name);
  for (const id of unique(mine.map((h) => h.id))) {
    const own = mine.filter((h) => h.id === id);
    const inside = (some: readonly Held[]) => percent(some.filter((h) => h.inside).length, some.length);
    row(
      id,
      own.length,
      inside(own),
      ...SITE_KINDS.map((kind) => inside(own.filter((h) => h.kind === kind))),
      percent(own.filter((h) => h.from === "usual").length, own.length),
      middle(own.map((h) => h.off)).toFixed(3),
      middle(own.map((h) => h.width)).toFixed(3),
    );
  }
  row(
    "all",
    mine.length,
    percent(mine.filter((h) => h.inside).length, mine.length),
    ...SITE_KINDS.map((kind) =>
      percent(mine.filter((h) => h.kind === kind && h.inside).length, mine.filter((h) => h.kind === kind).length),
    ),
    "",
    "",
    "",
  );
}

/** What is told to a tenth of a start or of a psi is not wrong by less. */
const GRAIN: Readonly<Record<MeasureId, number>> = {
  "starts-per-hour": 0.1,
  "short-cycles-per-hour": 0.1,
  "oscillation-peak-to-peak": 3500,
  "share-oscillating": 0.01,
  "drift-at-steady-flow": 700,
  "lowest-pressure": 700,
  "highest-pressure": 700,
  "stored-water": 1e-4,
};
const inside = ({ id, truth, told }: Met) => truth >= told.low - GRAIN[id] && truth <= told.high + GRAIN[id];

heads("measure", "change", "n", "inside", ...SITE_KINDS, "median off", "median change in truth", "right way", "mean width");
for (const log of LOGS) {
  row(`**${log.name}**`, ...Array.from({ length: 10 }, () => ""));
  const mine = met.filter((m) => m.log === log.name);
  for (const id of unique(mine.map((m) => m.id))) {
    for (const change of unique(mine.map((m) => m.change))) {
      const own = mine.filter((m) => m.id === id && m.change === change);
      const now = mine.filter((m) => m.id === id && m.change === "as it is");
      const share = (some: readonly Met[]) => percent(some.filter(inside).length, some.length);
      const moved = own.filter((m) => Math.abs(m.truth - m.before) > Math.max(3 * GRAIN[id], 0.2 * m.before));
      const k = own.map((m, i) => ({ m, told: now[i]?.told.value ?? Number.NaN }));
      const right = k.filter(({ m, told }) => moved.includes(m) && Math.sign(m.told.value - told) === Math.sign(m.truth - m.before));
      const scale = id.includes("pressure") || id.includes("peak") || id.includes("drift") ? 6895 : id === "stored-water" ? 3.785e-3 : 1;
      row(
        id,
        change,
        own.length,
        share(own),
        ...SITE_KINDS.map((kind) => share(own.filter((m) => m.kind === kind))),
        (middle(own.map((m) => m.told.value - m.truth)) / scale).toFixed(2),
        (middle(own.map((m) => m.truth - m.before)) / scale).toFixed(2),
        change === "as it is" ? "" : `${right.length} of ${moved.length}`,
        (own.reduce((sum, m) => sum + m.told.high - m.told.low, 0) / own.length / scale).toFixed(2),
      );
    }
  }
}

heads("log", ...SITE_KINDS.map((kind) => `explained, ${kind}`));
for (const log of LOGS)
  row(
    log.name,
    ...SITE_KINDS.map((kind) =>
      middle(explained.filter((e) => e.log === log.name && e.kind === kind).map((e) => e.share ?? Number.NaN)).toFixed(2),
    ),
  );
