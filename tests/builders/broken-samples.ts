import { deflateRawSync } from "node:zlib";
import type { ImportProblem } from "../../shared/problems/import-problem";

/** A file that is no log, and the problem it must be refused with. */
export type BrokenSample = { readonly file: string; readonly bytes: Uint8Array; readonly problem: ImportProblem["id"] };

const utf8 = (text: string) => new TextEncoder().encode(text);
/** Bytes that look like nothing: a fixed linear congruential sequence. */
const noise = (length: number) => {
  let state = 1;
  return Uint8Array.from({ length }, () => {
    state = (state * 1_103_515_245 + 12_345) % 2 ** 31;
    return (state >> 8) & 255;
  });
};
const rows = Array.from({ length: 12 }, (_, i) => i);

/** An archive of one entry whose directory names a size of 3 GB (PKWARE APPNOTE 4.3). */
function lyingArchive(): Uint8Array {
  const data = deflateRawSync(Buffer.from("Time,P\n"));
  const name = Buffer.from("a.csv");
  const size = 3_000_000_000;
  const local = Buffer.alloc(30);
  local.writeUInt32LE(0x04034b50, 0);
  local.writeUInt16LE(20, 4);
  local.writeUInt16LE(8, 8);
  local.writeUInt32LE(data.length, 18);
  local.writeUInt32LE(size, 22);
  local.writeUInt16LE(name.length, 26);
  const central = Buffer.alloc(46);
  central.writeUInt32LE(0x02014b50, 0);
  central.writeUInt16LE(20, 6);
  central.writeUInt16LE(8, 10);
  central.writeUInt32LE(data.length, 20);
  central.writeUInt32LE(size, 24);
  central.writeUInt16LE(name.length, 28);
  const end = Buffer.alloc(22);
  end.writeUInt32LE(0x06054b50, 0);
  end.writeUInt16LE(1, 8);
  end.writeUInt16LE(1, 10);
  end.writeUInt32LE(central.length + name.length, 12);
  end.writeUInt32LE(local.length + name.length + data.length, 16);
  return Uint8Array.from(Buffer.concat([local, name, data, central, name, end]));
}

export const BROKEN_SAMPLES: readonly BrokenSample[] = [
  { file: "empty.csv", bytes: utf8(""), problem: "empty-file" },
  { file: "blank-lines.csv", bytes: utf8("\n\r\n  \n"), problem: "empty-file" },
  { file: "mark-only.csv", bytes: utf8("\ufeff"), problem: "empty-file" },
  { file: "headings-only.csv", bytes: utf8("Time,Pressure (bar),Flow (L/min)\n"), problem: "header-only" },
  { file: "headings-under-preamble.csv", bytes: utf8("Serial;12\nPlace;east\n\nTime;Pressure (bar)\n;\n"), problem: "header-only" },
  { file: "letter.txt", bytes: utf8("Dear all,\nthe pump, as you know, is noisy.\nYours\n"), problem: "no-table" },
  { file: "page.csv", bytes: utf8("<html><body><h1>Session expired</h1></body></html>\n"), problem: "no-table" },
  { file: "noise.bin", bytes: noise(4000), problem: "not-text" },
  { file: "picture.csv", bytes: Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, ...noise(200)]), problem: "not-text" },
  {
    file: "no-time.csv",
    bytes: utf8(`Pressure (bar),Time\n${rows.map((i) => `${4 + (i % 3)}.1,${12 - (i % 5)}.5`).join("\n")}\n`),
    problem: "no-time-column",
  },
  { file: "one-column.csv", bytes: utf8(`Reading\n${rows.map((i) => `${4 + (i % 3)}.1`).join("\n")}\n`), problem: "one-column" },
  {
    file: "no-values.csv",
    bytes: utf8(`Time,Event\n${rows.map((i) => `2024-03-14 08:15:${10 + i},battery changed`).join("\n")}\n`),
    problem: "no-values",
  },
  { file: "truncated.zip", bytes: Uint8Array.from([0x50, 0x4b, 3, 4, ...noise(60)]), problem: "damaged-archive" },
  { file: "too-wide.csv", bytes: utf8(`a${",a".repeat(40_000)}\n1${",1".repeat(40_000)}\n`), problem: "too-large" },
  { file: "lying.zip", bytes: lyingArchive(), problem: "too-large" },
];
