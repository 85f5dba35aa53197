import { drift } from "../../../analysis/detectors/drift";
import { oscillation } from "../../../analysis/detectors/oscillation";
import { findFaults } from "../../../analysis/faults";
import { demandOf } from "../../../analysis/model/demand";
import { householdDraws } from "../../../analysis/model/draws";
import { simulateSite } from "../../../analysis/model/simulate-site";
import { soundSite, withSwitch } from "../../../analysis/model/sound-site";
import { visitRecord } from "../../../analysis/model/visit-record";
import { seededRandom } from "../../../analysis/numerics/random";
import { slowTrend } from "../../../analysis/numerics/slow-trend";
import { findSegments } from "../../../analysis/segments";
import type { OscillationEpisode } from "../../../shared/findings/finding";
import { readSiteFacts } from "../../../shared/site/read-site-facts";
import { alwaysRunning, evenSampling, evidenceOf, listedSampling, recordOf } from "../../builders/known-evidence";
import { GALLON, GPM } from "../../builders/model-sites";
import { addTone, noiseOf } from "../../builders/signals";
import { overlap, rootMeanSquare, shareOf } from "./signal-score";

/**
 * How well oscillation and drift are told on closed-form signals and on simulated sound sites: tables in Markdown on stdout. Argument: trials
 * a row. The pressure is a column of unit size times PA around 4 bar, with the pump running throughout.
 */
const trials = Number(process.argv[2] ?? 100);
const PA = 6000;
const PSI = 6894.757293168;

const percent = (share: number) => (Number.isNaN(share) ? "-" : `${(100 * share).toFixed(1)} %`);
const row = (...cells: readonly (string | number)[]) => console.log(`| ${cells.join(" | ")} |`);
const table = (...heads: readonly string[]) => {
  console.log("");
  row(...heads);
  row(...heads.map(() => "---"));
};

function episodesIn(values: Float64Array, sampling = evenSampling(values.length)): readonly OscillationEpisode[] {
  const record = recordOf({ pressure: values.map((v) => 4e5 + PA * v) }, sampling);
  const outcome = oscillation.detect(evidenceOf(record, { pump: alwaysRunning(record) }));
  return outcome.state === "found" ? outcome.finding.episodes : [];
}
const every = <T>(make: (trial: number) => T): T[] => Array.from({ length: trials }, (_, trial) => make(trial));

table("oscillation invented in noise", "300 samples", "900", "3600", "20 000");
for (const [name, memory, white] of [
  ["white", 0, 0],
  ["AR(1) 0.5", 0.5, 0],
  ["AR(1) 0.9", 0.9, 0],
  ["AR(1) 0.97", 0.97, 0],
  ["AR(1) 0.9 + white", 0.9, 1],
  ["AR(1) 0.97 + white", 0.97, 1],
] as const) {
  const cells = [300, 900, 3600, 20_000].map((size) =>
    percent(
      shareOf(
        every((t) => episodesIn(noiseOf(size, seededRandom(t * 31 + size), memory, white))),
        (e) => e.length > 0,
      ),
    ),
  );
  row(name, ...cells);
}

table("oscillation in the middle third", "period", "found", "overlap over half", "F1", "mean overlap", "period inside", "height inside");
for (const [name, memory, amplitude, waves] of [
  ["amplitude = sd of AR(1) 0.9, 20 waves", 0.9, 1, 20],
  ["amplitude = sd of white noise, 20 waves", 0, 1, 20],
  ["amplitude = 2 sd of AR(1) 0.9, 10 waves", 0.9, 2, 10],
] as const)
  for (const period of [5, 10, 20, 47, 100]) {
    const from = period * waves;
    const truth = { from, to: 2 * from };
    const all = every((t) => {
      const chance = seededRandom(t * 17 + 3);
      return episodesIn(addTone(noiseOf(3 * from, chance, memory), chance, { period, amplitude, ...truth }));
    });
    const best = all.flatMap((e) => [...e].sort((a, b) => overlap(b, truth) - overlap(a, truth)).slice(0, 1));
    const right = best.filter((e) => overlap(e, truth) >= 0.5 && Math.abs(e.period.value / period - 1) < 0.1);
    const said = all.reduce((sum, e) => sum + e.length, 0);
    row(
      name,
      `${period} s`,
      percent(best.length / trials),
      percent(right.length / trials),
      ((2 * right.length) / (said + trials)).toFixed(3),
      (best.reduce((sum, e) => sum + overlap(e, truth), 0) / best.length).toFixed(2),
      percent(shareOf(right, (e) => e.period.low <= period && period <= e.period.high)),
      percent(shareOf(right, (e) => e.peakToPeak.low <= 2 * amplitude * PA && 2 * amplitude * PA <= e.peakToPeak.high)),
    );
  }

table("period in white noise", "waves", "amplitude / sd", "sampling", "found", "rmse / Cramer-Rao bound", "period inside", "height inside");
for (const [period, waves, amplitude] of [
  [20, 10, 2],
  [20, 20, 1],
  [47, 10, 1],
  [100, 10, 0.5],
  [47, 40, 0.5],
  [10, 30, 1],
] as const)
  for (const uneven of [false, true]) {
    let bound = 0;
    const found = every((t) => {
      const chance = seededRandom(t * 19 + 3);
      const noise = noiseOf(period * waves, chance);
      let clock = 0;
      const times = Float64Array.from(noise, (_, i) => {
        clock += 0.4 + 1.2 * chance.next();
        return uneven ? clock : i;
      });
      const phase = 2 * Math.PI * chance.next();
      const middle = times.reduce((sum, u) => sum + u, 0) / times.length;
      const spread = Math.sqrt(times.reduce((sum, u) => sum + (u - middle) ** 2, 0));
      bound = (period ** 2 * Math.SQRT2) / (2 * Math.PI * amplitude * spread); // Rife & Boorstyn 1974, any sampling times
      const values = noise.map((v, i) => v + amplitude * Math.sin((2 * Math.PI * times[i]) / period + phase));
      return [...episodesIn(values, uneven ? listedSampling(times) : undefined)]
        .sort((a, b) => b.to - b.from - (a.to - a.from))
        .slice(0, 1);
    }).flat();
    const near = found.filter((e) => Math.abs(e.period.value / period - 1) < 0.1);
    row(
      `${period} s`,
      waves,
      amplitude,
      uneven ? "uneven" : "even",
      percent(near.length / trials),
      (rootMeanSquare(near.map((e) => e.period.value - period)) / bound).toFixed(2),
      percent(shareOf(near, (e) => e.period.low <= period && period <= e.period.high)),
      percent(shareOf(near, (e) => e.peakToPeak.low <= 2 * amplitude * PA && 2 * amplitude * PA <= e.peakToPeak.high)),
    );
  }

table("drift interval holds the truth, AR(1)", "0", "0.3", "0.6", "0.9");
for (const size of [60, 120, 300, 900, 3600])
  for (const spoil of ["", ", spikes", ", a wave"]) {
    const cells = [0, 0.3, 0.6, 0.9].map((memory) =>
      percent(
        shareOf(
          every((t) => {
            const chance = seededRandom(t * 3 + size);
            const values = noiseOf(size, chance, memory).map((v, i) => v + (2 * i) / (size - 1));
            if (spoil === ", spikes") for (let k = 0; k < size / 40; k++) values[chance.below(size)] += 20;
            if (spoil === ", a wave") addTone(values, chance, { period: size >= 300 ? 25 : 12, amplitude: 3 });
            return slowTrend(
              Float64Array.from(values, (_, i) => i),
              values,
            );
          }),
          (trend) => trend !== null && trend.low <= 2 && 2 <= trend.high,
        ),
      ),
    );
    row(`${size} samples${spoil}`, ...cells);
  }

table("simulated sound sites", "n", "oscillation invented", "drift windows matched", "true change inside", "over the limit");
for (const kind of ["variable speed", "fixed speed"] as const) {
  const sites = every((t) => soundVisit(kind, t)).map(({ record, truth }) => {
    const facts = readSiteFacts({}, "site");
    const faults = findFaults(record);
    const evidence = { record, faults, segments: findSegments(record, faults, facts), site: facts };
    const outcome = drift.detect(evidence);
    const windows = outcome.state === "found" ? outcome.finding.windows : [];
    const matched = windows.flatMap((w) => {
      const like = truth.steady.find((s) => overlap(s, w) > 0.8);
      return like === undefined ? [] : [{ w, change: (like.change * (w.to - w.from)) / (like.to - like.from) }];
    });
    return { invented: oscillation.detect(evidence).state === "found", windows, matched };
  });
  const matched = sites.flatMap((s) => s.matched);
  row(
    kind,
    sites.length,
    percent(shareOf(sites, (s) => s.invented)),
    matched.length,
    percent(shareOf(matched, ({ w, change }) => w.change.low <= change && change <= w.change.high)),
    sites.flatMap((s) => s.windows).filter((w) => w.over).length,
  );
}

/** A sound site by chance, busy with households for one and a half to four hours, logged with some of its channels. */
function soundVisit(kind: "variable speed" | "fixed speed", seed: number) {
  const chance = seededRandom(seed * 977 + 13);
  const between = (low: number, high: number) => low + (high - low) * chance.next();
  const set = between(40, 70);
  const rated = between(12, 60);
  const outline = {
    setPressure: set * PSI,
    ratedFlow: rated * GPM,
    ratedRise: set * PSI * between(1.05, 1.3),
    tankVolume: Math.max(rated * 0.2, 5) * between(1, 2.5) * GALLON,
    precharge: (set - between(15, 20)) * PSI,
    pipeLength: between(1, 4),
    bore: between(0.028, 0.045),
  };
  const sound = soundSite(outline);
  const channels = [
    ["pressure", "flow", "speed"],
    ["pressure", "flow"],
    ["pressure", "speed"],
    ["pressure"],
    ["pressure", "flow", "current"],
  ] as const;
  const logged = {
    ...sound,
    sensor: { ...sound.sensor, noise: between(100, 1500) },
    logger: { ...sound.logger, channels: channels[seed % 5], interval: seed % 4 === 2 ? 2 : 1, jitter: seed % 7 === 0 ? 0.05 : 0 },
  };
  const site = kind === "fixed speed" ? withSwitch(logged, (set - 10) * PSI, (set + 10) * PSI) : logged;
  const duration = between(1.5, 4) * 3600;
  const draws = householdDraws(Math.max(1, Math.round(rated / 6)), duration, seed * 3 + 1, between(5, 18), between(60, 200));
  const visit = simulateSite(site, demandOf(draws, set * PSI), duration, seed);
  return { record: visitRecord(visit), truth: visit.truth };
}
