import { gzipSync } from "fflate";
import { importLog, type LogFile } from "../../analysis/import/import-log";
import { ImportError } from "../../shared/problems/import-problem";
import { logFile } from "../builders/log-file";
import { bombs } from "./inputs/bases";

/**
 * Time over size. Each kind of input is read at n and at 4n bytes; what takes more than TOO_STEEP times as long at 4n is not linear
 * (a square law gives 16). CPU time, the least of three; kinds that are over in no time at 4n are not judged.
 */
const SIZE = 300_000;
const TOO_STEEP = 8;
const WORTH_JUDGING = 0.15;

const row = (i: number) =>
  `2024-05-01 ${new Date(i * 1000).toISOString().slice(11, 19)},${(3 + (i % 50) / 100).toFixed(2)},${(10 + (i % 7)).toFixed(1)}`;
const HEAD = "Time,Pressure (bar),Flow (L/min)\n";
const some = Array.from({ length: 40 }, (_, i) => row(i)).join("\n");
const repeated = (piece: string, n: number) => piece.repeat(Math.ceil(n / piece.length)).slice(0, n);

/** Pieces that readers of numbers, dates, intervals, zones, units and quotes repeat themselves over. */
const PIECES: readonly string[] = [
  "9",
  "1.",
  "1,",
  "-",
  "1e",
  "1h",
  "1 h ",
  "00:",
  "2024-",
  "12/",
  " ",
  '"',
  '""',
  "'",
  '","',
  "(",
  "[",
  "()",
  "+1",
  "Z",
  "UTC",
  "a ",
  "a1",
  "psi ",
  "=",
  ":",
  ".",
  "\t",
  "\\",
  "%",
  "#",
  "\0",
  "é",
  "\u00a0",
  "Jan ",
  "T",
  "P1D",
  "x;",
  "|",
  "_",
  "0x",
  "\u{1f4a7}",
];
type Kind = readonly [name: string, make: (n: number) => string | Uint8Array];
const IN_PLACES: readonly Kind[] = PIECES.flatMap((piece): Kind[] => [
  [`cell ${JSON.stringify(piece)}`, (n) => `${HEAD}${some}\n2024-05-01 00:01:00,${repeated(piece, n)},1\n${some}`],
  [`time ${JSON.stringify(piece)}`, (n) => `${HEAD}${some}\n${repeated(piece, n)},1,1\n${some}`],
  [`heading ${JSON.stringify(piece)}`, (n) => `Time,${repeated(piece, n)},Flow\n${some}`],
  [`preamble ${JSON.stringify(piece)}`, (n) => `${repeated(piece, n)}\n${HEAD}${some}`],
  [`cells ${JSON.stringify(piece)}`, (n) => `${HEAD}${repeated(`${repeated(piece, 60)},${repeated(piece, 60)},1\n`, n)}`],
  [`times ${JSON.stringify(piece)}`, (n) => `${HEAD}${some}\n${repeated(`${repeated(piece, 40)},1,1\n`, n)}`],
]);
const KINDS: readonly Kind[] = [
  ["rows", (n) => HEAD + Array.from({ length: n / 30 }, (_, i) => row(i)).join("\n")],
  ["rows backwards", (n) => HEAD + Array.from({ length: n / 30 }, (_, i) => row(n - i)).join("\n")],
  ["rows in any order", (n) => HEAD + Array.from({ length: n / 30 }, (_, i) => row((i * 7919) % (n / 30))).join("\n")],
  ["one instant", (n) => HEAD + Array.from({ length: n / 30 }, (_, i) => row(5 + 0 * i)).join("\n")],
  ["clock set back each row", (n) => HEAD + Array.from({ length: n / 30 }, (_, i) => row(i % 2)).join("\n")],
  ["columns, three rows", (n) => [0, 1, 2].map((r) => `2024-05-01 00:00:0${r}${",1.5".repeat(n / 12)}`).join("\n")],
  [
    "named columns",
    (n) =>
      `Time,${Array.from({ length: n / 20 }, (_, i) => `P${i} (bar)`).join(",")}\n${[0, 1, 2].map((r) => `2024-05-01 00:00:0${r}${",1".repeat(n / 20)}`).join("\n")}`,
  ],
  ["empty columns", (n) => [0, 1, 2].map((r) => `2024-05-01 00:00:0${r}${",".repeat(n / 3)}`).join("\n")],
  ["unclosed quote", (n) => `${HEAD}${some}\n"${Array.from({ length: n / 30 }, (_, i) => row(i)).join("\n")}`],
  ["quote in each row", (n) => HEAD + Array.from({ length: n / 30 }, (_, i) => `"${row(i)}`).join("\n")],
  ["quote in every other", (n) => HEAD + Array.from({ length: n / 30 }, (_, i) => (i % 2 ? `${row(i)}"` : row(i))).join("\n")],
  ["blank lines", (n) => `${HEAD}${some}${"\n".repeat(n)}${some}`],
  ["comments", (n) => `${repeated("# x\n", n)}${HEAD}${some}`],
  ["headings again and again", (n) => repeated(HEAD + some.slice(0, 80), n)],
  ["preamble of pairs", (n) => `${Array.from({ length: n / 20 }, (_, i) => `Setting ${i}: ${i}`).join("\n")}\n${HEAD}${some}`],
  [
    "channels in long form",
    (n) => `Time,Name,Value\n${Array.from({ length: n / 30 }, (_, i) => `2024-05-01 00:00:00,Ch${i},1.5`).join("\n")}`,
  ],
  ["carriage returns", (n) => repeated(`${HEAD}${some}`.replaceAll("\n", "\r"), n)],
  ["random cells", (n) => Array.from({ length: n / 12 }, (_, i) => ((i * 2654435761) >>> 0).toString(36)).join(",")],
  ["random lines", (n) => Array.from({ length: n / 8 }, (_, i) => ((i * 2654435761) >>> 0).toString(36)).join("\n")],
  ["words", (n) => Array.from({ length: n / 12 }, (_, i) => `w${(i * 40503) & 255} x`).join("\n")],
  ...IN_PLACES,
];

async function cpuSeconds(input: string | Uint8Array, rounds: number): Promise<number> {
  let least = Number.POSITIVE_INFINITY;
  for (let round = 0; round < rounds; round++) {
    const before = process.cpuUsage();
    await readOrRefuse(logFile(input));
    const { user, system } = process.cpuUsage(before);
    least = Math.min(least, (user + system) / 1e6);
  }
  return least;
}

async function readOrRefuse(file: LogFile): Promise<string> {
  try {
    const { record } = await importLog([file]);
    return `read, ${record.rows.accepted} rows`;
  } catch (error) {
    if (!(error instanceof ImportError)) throw error;
    return `refused: ${error.problem.id}`;
  }
}

let worst = 0;
let steep = 0;
for (const [name, make] of KINDS) {
  const large = await cpuSeconds(make(4 * SIZE), 1);
  if (large < WORTH_JUDGING) continue;
  const [small, again] = [await cpuSeconds(make(SIZE), 3), await cpuSeconds(make(4 * SIZE), 2)];
  const ratio = Math.min(large, again) / small;
  worst = Math.max(worst, ratio);
  if (ratio <= TOO_STEEP) continue;
  steep++;
  console.log(
    `STEEP ${name}: ${small.toFixed(3)} s at ${SIZE} bytes, ${Math.min(large, again).toFixed(3)} s at four times that (x${ratio.toFixed(1)})`,
  );
}
console.log(
  `${KINDS.length} kinds of input at ${SIZE} and ${4 * SIZE} bytes: ${steep} grow faster than their size; steepest x${worst.toFixed(1)}`,
);

/** Peak memory of this process beyond what it held before, MB: a bomb must be refused or read within it. */
const MOST_MB = 900;
let heavy = 0;
for (const [name, bytes] of Object.entries({
  ...bombs(),
  "doubled.gz": gzipSync(gzipSync(new Uint8Array(50_000_000), { level: 9 }), { level: 9 }),
})) {
  const before = process.resourceUsage().maxRSS / 1024;
  const answer = await readOrRefuse(logFile(bytes, name, 1 << 20));
  const grew = process.resourceUsage().maxRSS / 1024 - before;
  if (grew > MOST_MB) heavy++;
  console.log(`${grew > MOST_MB ? "HEAVY " : ""}${name}: ${bytes.length} bytes packed, ${answer}, peak memory +${grew.toFixed(0)} MB`);
}
const wide = `Time${",P".repeat(1_000_000)}\n${[0, 1, 2].map((r) => `2024-05-01 00:00:0${r}${",1".repeat(1_000_000)}`).join("\n")}`;
console.log(
  `a million columns: ${await readOrRefuse(logFile(wide))}, peak memory ${(process.resourceUsage().maxRSS / 1024).toFixed(0)} MB`,
);
process.exitCode = steep + heavy > 0 ? 1 : 0;
