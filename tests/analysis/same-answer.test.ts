import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { analyse } from "../../analysis/analyse";
import { writeFindings } from "../../analysis/document/findings-document";
import { importLog, type LogFile, NO_CHOICES } from "../../analysis/import/import-log";
import type { FindingsDocument } from "../../shared/schemas/findings-document";
import { readSiteFacts } from "../../shared/site/read-site-facts";
import { US_UNITS } from "../../shared/units/unit-choice";
import { TOP } from "../house/source-files";

const VISIT = join(TOP, "sample-data", "visits", "hillside-before");
/** The first evening of the sample visit, 12:00 to 24:00: short cycles, hunting, steady draws. */
const [HEADING, ...ALL] = readFileSync(`${VISIT}.csv`, "utf8").trimEnd().split("\n");
const ROWS = ALL.slice(21600, 43200);
const SITE = readSiteFacts(JSON.parse(readFileSync(`${VISIT}.site.json`, "utf8")), "site.json");

const textOf = (rows: readonly string[], heading = HEADING) => `${[heading, ...rows].join("\n")}\n`;

function file(text: string, name = "log.csv", chunk = 1 << 16): LogFile {
  const bytes = new TextEncoder().encode(text);
  return {
    name,
    bytes: bytes.length,
    sha256: null,
    async *open() {
      for (let at = 0; at < bytes.length; at += chunk) yield bytes.slice(at, at + chunk);
    },
  };
}

async function findingsOf(files: readonly LogFile[], site = SITE): Promise<FindingsDocument> {
  const { record } = await importLog(files, { ...NO_CHOICES, zone: site.zone });
  return writeFindings(record, analyse(record, site), US_UNITS);
}

/** What a person would act on, without what names files, lines and headings. */
const essence = ({ running, cycling, oscillation, drift, tracking, tank, leak, causes, advice, cannotTell }: FindingsDocument) => ({
  running,
  cycling,
  oscillation,
  drift,
  tracking,
  tank,
  leak,
  causes,
  advice,
  cannotTell,
});

const plain = findingsOf([file(textOf(ROWS))]);

describe("the same log gives the same findings, byte for byte", () => {
  test.each([1 << 20, 4099, 61])("read in pieces of %i bytes", async (chunk) => {
    const rows = chunk < 1000 ? ROWS.slice(0, 4000) : ROWS;
    const [whole, pieces] = [await findingsOf([file(textOf(rows))]), await findingsOf([file(textOf(rows), "log.csv", chunk)])];
    expect(JSON.stringify(pieces)).toBe(JSON.stringify(whole));
  });

  test("in any zone and language of the machine", () => {
    const under = (environment: Record<string, string>) =>
      spawnSync(
        process.execPath,
        [join(TOP, ".ci", "command-line.mjs"), "analyse", `${VISIT}.csv`, "--site", `${VISIT}.site.json`, "--json"],
        {
          encoding: "utf8",
          maxBuffer: 1 << 28,
          env: { ...process.env, ...environment },
        },
      ).stdout;
    const utc = under({ TZ: "UTC", LANG: "C" });
    expect(JSON.parse(utc).error).toBeNull();
    expect(under({ TZ: "America/St_Johns", LANG: "de_DE.UTF-8", LC_ALL: "de_DE.UTF-8" })).toBe(utc);
    expect(under({ TZ: "Asia/Kathmandu" })).toBe(utc);
  });
});

describe("what does not matter changes nothing", () => {
  test("two parts of one log, in either order", async () => {
    const parts = [file(textOf(ROWS.slice(0, 9000)), "a.csv"), file(textOf(ROWS.slice(9000)), "b.csv")];
    const [forth, back] = [await findingsOf(parts), await findingsOf(parts.toReversed())];
    expect(essence(forth)).toEqual(essence(await plain));
    expect(essence(back)).toEqual(essence(await plain));
  });

  test("rows written twice", async () => {
    const twice = await findingsOf([file(textOf(ROWS.flatMap((row, i) => (i % 50 === 0 ? [row, row] : [row]))))]);
    expect(twice.record.rows.duplicate).toBe(ROWS.length / 50);
    expect(essence(twice)).toEqual(essence(await plain));
  });

  test("a column of no meaning", async () => {
    const more = await findingsOf([
      file(
        textOf(
          ROWS.map((row, i) => `${row},${i % 7}`),
          `${HEADING},Remark no.`,
        ),
      ),
    ]);
    expect(essence(more)).toEqual(essence(await plain));
  });

  test("the order of the columns", async () => {
    const turned = (row: string) => {
      const [time, pressure, flow, speed] = row.split(",");
      return [speed, time, flow, pressure].join(",");
    };
    expect(essence(await findingsOf([file(textOf(ROWS.map(turned), turned(HEADING)))]))).toEqual(essence(await plain));
  });
});

describe("findings change as the log changes", () => {
  test("shifted by a week, the same a week later", async () => {
    const later = (row: string) =>
      row.replace(/^2026-03-(\d\d)/, (_, day: string) => `2026-03-${String(Number(day) + 7).padStart(2, "0")}`);
    const shifted = await findingsOf([file(textOf(ROWS.map(later)))]);
    const back = JSON.parse(
      JSON.stringify(essence(shifted)).replace(
        /2026-03-(\d\d)T/g,
        (_, day: string) => `2026-03-${String(Number(day) - 7).padStart(2, "0")}T`,
      ),
    );
    expect(back).toEqual(JSON.parse(JSON.stringify(essence(await plain))));
  });

  test("in bar and litres per minute, the same places and counts, the same SI numbers within the rounding of the file", async () => {
    const metric = (row: string) => {
      const [time, pressure, flow, speed] = row.split(",");
      return [time, (Number(pressure) * 0.0689475729).toFixed(6), (Number(flow) * 3.785411784).toFixed(6), speed].join(",");
    };
    const turned = await findingsOf([file(textOf(ROWS.map(metric), "Time,Pressure (bar),Flow (L/min),Speed (%)"))]);
    const before = await plain;
    expect(turned.cycling.starts).toBe(before.cycling.starts);
    expect(turned.cycling.shortCycle.count).toBe(before.cycling.shortCycle.count);
    expect(turned.oscillation.episodes.length).toBe(before.oscillation.episodes.length);
    expect(turned.causes.map((cause) => cause.id)).toEqual(before.causes.map((cause) => cause.id));
    expect(turned.tracking.meanErrorPa).toBeCloseTo(before.tracking.meanErrorPa!, -1);
    expect(turned.cycling.cutInPa! / before.cycling.cutInPa!).toBeCloseTo(1, 5);
  });

  test("pressure and all that the site says of pressure scaled alike: the same places and counts, every gauge pressure scaled", async () => {
    const K = 1.25;
    const scaled = (row: string) => {
      const [time, pressure, flow, speed] = row.split(",");
      return [time, (Number(pressure) * K).toFixed(6), flow, speed].join(",");
    };
    const facts = (k: number) =>
      readSiteFacts(
        {
          pump: "variable-speed",
          setPressure: `${52 * k} psi`,
          limits: { band: `${3 * k} psi`, driftAtSteadyFlow: `${5 * k} psi`, oscillationPeakToPeak: `${3 * k} psi` },
        },
        "site.json",
      );
    const before = await findingsOf([file(textOf(ROWS))], facts(1));
    const after = await findingsOf([file(textOf(ROWS.map(scaled)))], facts(K));
    expect(after.running).toEqual(before.running);
    expect({ ...after.cycling, cutInPa: null, cutOutPa: null }).toEqual({ ...before.cycling, cutInPa: null, cutOutPa: null });
    expect(after.cycling.cutInPa! / before.cycling.cutInPa!).toBeCloseTo(K, 6);
    expect(after.tracking.meanErrorPa! / before.tracking.meanErrorPa!).toBeCloseTo(K, 4);
    expect(after.tracking.shareWithinBand).toBeCloseTo(before.tracking.shareWithinBand!, 3);
    expect(after.oscillation.episodes.length).toBe(before.oscillation.episodes.length);
    for (const [i, episode] of after.oscillation.episodes.entries()) {
      expect(Math.abs(Date.parse(String(episode.from)) - Date.parse(String(before.oscillation.episodes[i].from)))).toBeLessThanOrEqual(1); // ms: the last digit told
      expect(episode.periodS!.value / before.oscillation.episodes[i].periodS!.value).toBeCloseTo(1, 6);
      expect(episode.peakToPeakPa!.value / before.oscillation.episodes[i].peakToPeakPa!.value).toBeCloseTo(K, 4);
    }
    expect(after.drift.windows.map((w) => w.over)).toEqual(before.drift.windows.map((w) => w.over));
    for (const [i, { changePa }] of after.drift.windows.entries())
      expect(Math.abs(changePa!.value - K * before.drift.windows[i].changePa!.value)).toBeLessThan(1);
  });

  test("each reading held for a second one, half a second later: the same starts, and no pressure moves", async () => {
    const twice = ROWS.slice(0, 7200).flatMap((row) => [row, row.replace(/^([^,]*)/, "$1.5")]);
    const [once, held] = [await findingsOf([file(textOf(ROWS.slice(0, 7200)))]), await findingsOf([file(textOf(twice))])];
    expect(held.record.rows.accepted).toBe(14_400);
    expect(held.cycling.starts).toBe(once.cycling.starts);
    expect(held.cycling.shortCycle.count).toBe(once.cycling.shortCycle.count);
    expect(held.tracking.lowestPa).toBe(once.tracking.lowestPa);
    expect(held.tracking.highestPa).toBe(once.tracking.highestPa);
  });
});
