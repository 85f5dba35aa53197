import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { analyse, analyseInSteps } from "../../analysis/analyse";
import { compareVisits } from "../../analysis/comparison/before-and-after";
import { writeFindings } from "../../analysis/document/findings-document";
import { importLog, NO_CHOICES } from "../../analysis/import/import-log";
import { writeRecord } from "../../analysis/import/write-record";
import { seededRandom } from "../../analysis/numerics/random";
import type { VisitMeasures } from "../../shared/findings/comparison";
import type { FindingsDocument } from "../../shared/schemas/findings-document";
import { readSiteFacts } from "../../shared/site/read-site-facts";
import { US_UNITS } from "../../shared/units/unit-choice";
import { logFile } from "../builders/log-file";
import { measuredVisit } from "../builders/measured-visits";
import { TOP } from "../house/source-files";

const VISIT = join(TOP, "sample-data", "visits", "hillside-before");
/** Six hours of the first evening of the sample visit. */
const [HEADING, ...ALL] = readFileSync(`${VISIT}.csv`, "utf8").trimEnd().split("\n");
const ROWS = ALL.slice(21600, 43200);
const SITE = readSiteFacts(JSON.parse(readFileSync(`${VISIT}.site.json`, "utf8")), "site.json");

const textOf = (rows: readonly string[], heading = HEADING) => `${[heading, ...rows].join("\n")}\n`;
const recordOf = async (text: string) => (await importLog([logFile(text)], { ...NO_CHOICES, zone: SITE.zone })).record;
async function documentOf(text: string): Promise<FindingsDocument> {
  const record = await recordOf(text);
  return writeFindings(record, analyse(record, SITE), US_UNITS);
}
const plain = documentOf(textOf(ROWS));
/** What a person would act on. */
const essence = ({ running, cycling, oscillation, drift, tracking, tank, leak, causes, advice, cannotTell }: FindingsDocument) =>
  JSON.parse(JSON.stringify({ running, cycling, oscillation, drift, tracking, tank, leak, causes, advice, cannotTell }));

describe("the record written for other programs", () => {
  test("says of itself what the log said, read again in the units that it is written in", async () => {
    const record = await recordOf(textOf(ROWS));
    const written = [...writeRecord(record)].join("").trimEnd().split("\n").slice(1);
    // Gauge pressure in Pa, flow in m3/s; a share of full speed is told in per cent.
    const again = written.map((row) => {
      const [, instant, pressure, flow, speed] = row.split(",");
      return [instant, pressure, flow, String(100 * Number(speed))].join(",");
    });
    const read = await documentOf(textOf(again, "Time,Pressure (Pa),Flow (m3/s),Speed (%)"));
    const [a, b] = [essence(await plain), essence(read)];
    // The first log is in psi and gpm, whose last digits stand in the sentences; all else is the same to nine figures.
    expect(b.running).toEqual(a.running);
    expect({ ...b.cycling, cutInPa: 0, cutOutPa: 0 }).toEqual({ ...a.cycling, cutInPa: 0, cutOutPa: 0 });
    expect(b.cycling.cutInPa / a.cycling.cutInPa).toBeCloseTo(1, 6);
    expect(b.oscillation.episodes.length).toBe(a.oscillation.episodes.length);
    expect(b.drift.windows.map((w: { over: boolean }) => w.over)).toEqual(a.drift.windows.map((w: { over: boolean }) => w.over));
    expect(b.causes.map((c: { id: string }) => c.id)).toEqual(a.causes.map((c: { id: string }) => c.id));
    for (const [i, { confidence }] of a.causes.entries()) expect(b.causes[i].confidence).toBeCloseTo(confidence, 6);
    expect(b.advice.map((s: { id: string }) => s.id)).toEqual(a.advice.map((s: { id: string }) => s.id));
  });
});

describe("taken step by step", () => {
  test("as a page does that must not stand still, the analysis is the same", async () => {
    const record = await recordOf(textOf(ROWS.slice(0, 7200)));
    const steps = analyseInSteps(record, SITE);
    let count = 0;
    for (;;) {
      const { done, value } = steps.next();
      if (!done) {
        count++;
        continue;
      }
      expect(JSON.stringify(writeFindings(record, value, US_UNITS))).toBe(
        JSON.stringify(writeFindings(record, analyse(record, SITE), US_UNITS)),
      );
      break;
    }
    expect(count).toBeGreaterThan(5);
  });
});

describe("a clock that slips by a zone's hour", () => {
  const [from, slipped] = [Math.floor(ROWS.length / 2), 3600];
  const later = (row: string) =>
    row.replace(/^[^,]*/, (stamp) => new Date(Date.parse(`${stamp}Z`) + slipped * 1000).toISOString().slice(0, 19));
  const stamped = (row: string) => row.replace(/^[^,]*/, (stamp) => new Date(Date.parse(`${stamp}Z`)).toISOString().slice(0, 19));
  test("is told, moves what follows by that hour, and neither adds nor takes a start", async () => {
    const turned = await documentOf(textOf(ROWS.map((row, i) => (i < from ? stamped(row) : later(row)))));
    const straight = await documentOf(textOf(ROWS.map(stamped)));
    expect(turned.record.faults.map(({ kind }) => kind)).toContain("zone-slip");
    expect(straight.record.faults.map(({ kind }) => kind)).not.toContain("zone-slip");
    // The run during which the clock was put on is cut there, and no more.
    expect(Math.abs(turned.cycling.starts! - straight.cycling.starts!)).toBeLessThanOrEqual(1);
    expect(Math.abs(turned.cycling.shortCycle.count! - straight.cycling.shortCycle.count!)).toBeLessThanOrEqual(1);
    const at = Date.parse(`${ROWS[from].split(",")[0]}Z`);
    const starts = (document: FindingsDocument) => document.running.runs.map(({ from: start }) => Date.parse(String(start)));
    const back = starts(turned).map((t) => (t >= at ? t - slipped * 1000 : t));
    const near = (t: number) => starts(straight).some((start) => Math.abs(start - t) <= 1000);
    expect(back.filter((t) => !near(t)).length).toBeLessThanOrEqual(1);
    expect(turned.tracking.lowestPa).toBe(straight.tracking.lowestPa);
    expect(turned.tracking.highestPa).toBe(straight.tracking.highestPa);
  });
});

describe("another sensor from a row on", () => {
  test("the pressure is judged by the longer part alone, as if the log had ended there; the pump's own witness goes on", async () => {
    const from = Math.floor(ROWS.length * 0.7);
    const swapped = ROWS.map((row, i) => {
      const [time, pressure, flow, speed] = row.split(",");
      return i < from ? row : [time, (Number(pressure) + 20).toFixed(2), flow, speed].join(",");
    });
    const [document, cut, whole] = [await documentOf(textOf(swapped)), await documentOf(textOf(ROWS.slice(0, from))), await plain];
    expect(document.record.faults.map(({ kind }) => kind)).toContain("sensor-swap");
    expect(document.tracking.lowestPa).toBe(cut.tracking.lowestPa);
    expect(document.tracking.highestPa).toBe(cut.tracking.highestPa);
    expect(document.running.runs).toEqual(whole.running.runs);
    expect(document.cycling.starts).toBe(whole.cycling.starts);
    expect(document.cycling.shortCycle.count).toBe(whole.cycling.shortCycle.count);
  });
});

describe("a log on change", () => {
  /** Every second row is a change of the pump; between them nothing is written. */
  const chance = seededRandom(14);
  const at = (t: number) => new Date(Date.UTC(2026, 2, 2) + t * 1000).toISOString().slice(0, 19);
  const changes: { readonly t: number; readonly on: number }[] = [];
  for (
    let t = 0, on = 0;
    t < 40_000;
    on = 1 - on, t += on === 1 ? 20 + Math.floor(60 * chance.next()) : 120 + Math.floor(500 * chance.next())
  )
    changes.push({ t, on });
  const log = (rows: readonly { readonly t: number; readonly on: number }[], shift = 0) =>
    textOf(rows.map(({ t, on }) => `${at(t + shift)},${on}`), "Time,Pump running"); // biome-ignore format: one line
  test("in which a state is written again without a change has the same runs", async () => {
    const again = changes.flatMap(({ t, on }, i) => {
      const next = changes[i + 1]?.t ?? t;
      return i % 7 === 3 && next > t + 20
        ? [
            { t, on },
            { t: t + 11, on },
          ]
        : [{ t, on }];
    });
    const [once, more] = [await documentOf(log(changes)), await documentOf(log(again))];
    expect(once.running.runs.length).toBeGreaterThan(50);
    expect(more.running.runs).toEqual(once.running.runs);
    expect(more.cycling).toEqual(once.cycling);
  });
  test("a day later has its runs a day later", async () => {
    const [once, later] = [await documentOf(log(changes)), await documentOf(log(changes, 86_400))];
    const moved = once.running.runs.map(({ from, to }) => [from, to].map((t) => Date.parse(String(t)) + 86_400_000));
    expect(later.running.runs.map(({ from, to }) => [from, to].map((t) => Date.parse(String(t))))).toEqual(moved);
    expect(later.cycling.shortCycle).toEqual(once.cycling.shortCycle);
  });
});

describe("before and after, without flow", () => {
  const unmetered = (hours: number, perHour: number, fromHour: number, seed: number): VisitMeasures => {
    const visit = measuredVisit({ hours, startsPerHour: perHour, fromHour }, seededRandom(seed));
    return { ...visit, blocks: { ...visit.blocks, drawn: null } };
  };
  const [before, after] = [unmetered(30, 12, 6, 1), unmetered(40, 6, 20, 2)];
  const starts = (a: VisitMeasures, b: VisitMeasures) => compareVisits(a, b).measures.find(({ id }) => id === "starts-per-hour")!;
  test("the other way round the difference turns over, and its interval as far as resampling settles it", () => {
    const [there, back] = [starts(before, after).difference!, starts(after, before).difference!];
    expect(back.value).toBeCloseTo(-there.value, 9);
    // The interval is drawn: 600 resamples settle it within a tenth.
    expect((back.high - back.low) / (there.high - there.low)).toBeGreaterThan(0.9);
    expect((back.high - back.low) / (there.high - there.low)).toBeLessThan(1.1);
    expect(compareVisits(after, before).matchedShare).toBe(compareVisits(before, after).matchedShare);
  });
  test("whole days earlier or later it is the same", () => {
    const later = (visit: VisitMeasures, days: number) => ({ ...visit, beginsS: visit.beginsS! + days * 86_400 });
    expect(starts(later(before, 3), after)).toEqual(starts(before, after));
    expect(starts(before, later(after, 2))).toEqual(starts(before, after));
  });
  test("hours that only one of them logged weigh nothing", () => {
    const short = unmetered(8, 12, 6, 3);
    const cut = (visit: VisitMeasures, hours: number): VisitMeasures => ({
      ...visit,
      blocks: Object.fromEntries(
        Object.entries(visit.blocks).map(([name, values]) => [name, Array.isArray(values) ? values.slice(0, hours) : values]),
      ) as VisitMeasures["blocks"],
    });
    const longer = unmetered(20, 6, 6, 4);
    expect(starts(short, longer).difference!.value).toBeCloseTo(starts(short, cut(longer, 8)).difference!.value, 9);
  });
});
