// Writes the logs that every reader reads. Seeded, so that every run reads the same bytes; a log that is there already is kept.
import { closeSync, existsSync, mkdirSync, openSync, readFileSync, renameSync, writeFileSync, writeSync } from "node:fs";
import { join } from "node:path";

const START = Date.UTC(2026, 0, 5);
export const WEEK = 604_800;
export const YEAR = 31_536_000;

/** Small linear congruential generator (constants of Numerical Recipes): enough for a benchmark's noise. */
function chance(seed) {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(1664525, state) + 1013904223) >>> 0;
    return state / 4294967296;
  };
}

const two = (n) => String(n).padStart(2, "0");

/** A row's instant and values: pressure psi, flow gpm, speed %. */
function* samples(rows, seed = 7) {
  const random = chance(seed);
  for (let i = 0; i < rows; i++) {
    const pressure = 55 + 3 * Math.sin(i / 90) + random();
    const flow = Math.max(0, 8 * Math.sin(i / 700) + random());
    yield { at: new Date(START + i * 1000), i, pressure, flow, speed: 70 + 10 * Math.sin(i / 300) };
  }
}

function writeLines(path, heading, rows, line) {
  if (existsSync(path)) return path;
  const part = `${path}.part`;
  const file = openSync(part, "w");
  let text = `${heading}\n`;
  for (const sample of samples(rows)) {
    text += `${line(sample)}\n`;
    if (text.length < 1 << 20) continue;
    writeSync(file, text);
    text = "";
  }
  writeSync(file, text);
  closeSync(file);
  // only a log that is whole bears its name
  renameSync(part, path);
  return path;
}

/** ISO stamps and commas. */
export const plainLog = (folder, rows = WEEK) =>
  writeLines(
    inFolder(folder, `plain-${rows}.csv`),
    "time,Pressure (psi),Flow (gpm),Speed (%)",
    rows,
    ({ at, pressure, flow, speed }) => `${at.toISOString().slice(0, 19)},${pressure.toFixed(2)},${flow.toFixed(2)},${speed.toFixed(1)}`,
  );

const europeanStamp = (at) =>
  `${two(at.getUTCDate())}/${two(at.getUTCMonth() + 1)}/${at.getUTCFullYear()} ${two(at.getUTCHours())}:${two(at.getUTCMinutes())}:${two(at.getUTCSeconds())}`;

/** Semicolons, decimal commas, dd/mm/yyyy. */
export const awkwardLog = (folder, rows = WEEK) =>
  writeLines(
    inFolder(folder, `awkward-${rows}.csv`),
    "Zeit;Druck [bar];Durchfluss [L/min];Drehzahl [%]",
    rows,
    ({ at, pressure, flow, speed }) =>
      [europeanStamp(at), (pressure / 14.5).toFixed(3), (flow * 3.785).toFixed(2), speed.toFixed(1)].join(";").replaceAll(".", ","),
  );

/** What a station writes: lines above the table, every cell in quotes, a blank or a word now and then, a row that is cut, one with a cell too many. */
export const stationLog = (folder, rows = WEEK) =>
  writeLines(
    inFolder(folder, `station-${rows}.csv`),
    'Station 4;booster set\nSerial;0117\n\n"Date and time";"Pressure [bar]";"Flow [L/min]";"Speed [%]"',
    rows,
    ({ at, i, pressure, flow, speed }) => {
      const cells = [europeanStamp(at), (pressure / 14.5).toFixed(3), i % 97 === 0 ? "" : (flow * 3.785).toFixed(2), speed.toFixed(1)];
      if (i % 1009 === 0) cells[2] = "---";
      if (i % 5003 === 1) cells.length = 2;
      if (i % 7001 === 2) cells.push("check");
      return cells.map((cell) => `"${cell.replace(".", ",")}"`).join(";");
    },
  );

/** A week at 1 s for the model: the sample visit's three days at 2 s, each sample twice, gone through again from its start. */
export function modelLog(folder, sample) {
  const path = inFolder(folder, "model-week.csv");
  if (existsSync(path)) return path;
  const [heading, ...rows] = readFileSync(sample, "utf8").trim().split("\n");
  const cells = rows.map((row) => row.slice(row.indexOf(",")));
  const lines = Array.from(
    { length: WEEK },
    (_, i) => `${new Date(START + i * 1000).toISOString().slice(0, 19)}${cells[(i >> 1) % cells.length]}`,
  );
  writeFileSync(path, `${[heading, ...lines].join("\n")}\n`);
  return path;
}

/** Logs of a day each in a folder of their own. */
export function bulkFolder(folder, logs = 16, rows = 86_400) {
  const path = join(folder, `bulk-${logs}`);
  mkdirSync(path, { recursive: true });
  const text = readFileSync(plainLog(folder, rows));
  for (let k = 0; k < logs; k++) writeFileSync(join(path, `day-${two(k)}.csv`), text);
  return path;
}

function inFolder(folder, name) {
  mkdirSync(folder, { recursive: true });
  return join(folder, name);
}
