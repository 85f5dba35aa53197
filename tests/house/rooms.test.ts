import { readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { describe, expect, test } from "vitest";
import { PROGRAM_VERSION } from "../../shared/version";
import { sourceFiles, TOP } from "./source-files";

/** The rooms of analysis in their order: a room may use those before it, never one after. */
const ORDER = [
  "numerics",
  "hydraulics",
  "import",
  "faults",
  "segments",
  "detectors",
  "model",
  "diagnosis",
  "advice",
  "comparison",
  "acceptance",
  "document",
];
/** On these shelves no file may use its neighbour; `detector.ts` and the like say what a neighbour is, index.ts lists them. */
const SHELVES: readonly (readonly [string, readonly string[]])[] = [
  ["analysis/detectors", ["detector", "index"]],
  ["analysis/diagnosis/causes", ["cause-table", "index"]],
  ["analysis/advice/rules", ["index"]],
];

const roomOf = (path: string) => path.split("/")[1].replace(/\.ts$/, "");

describe("imports follow the arrows", () => {
  test("shared uses nothing but valibot, and that only in its schemas", () => {
    const wrong = sourceFiles("shared").flatMap(({ path, imports }) =>
      imports
        .filter((i) => !i.startsWith("shared/") && !(i === "valibot" && path.startsWith("shared/schemas/")))
        .map((i) => `${path} imports ${i}`),
    );
    expect(wrong).toEqual([]);
  });

  test("a room of analysis uses those above it", () => {
    const wrong = sourceFiles("analysis").flatMap(({ path, imports }) => {
      const room = ORDER.indexOf(roomOf(path));
      const own = imports.filter((i) => i.startsWith("analysis/"));
      return room < 0
        ? []
        : own.filter((i) => !(ORDER.indexOf(roomOf(i)) <= room && ORDER.includes(roomOf(i)))).map((i) => `${path} imports ${i}`);
    });
    expect(wrong).toEqual([]);
  });

  test("every room of analysis has its place in the order", () => {
    const rooms = readdirSync(join(TOP, "analysis"), { withFileTypes: true }).flatMap((entry) => (entry.isDirectory() ? [entry.name] : []));
    expect(rooms.filter((room) => !ORDER.includes(room))).toEqual([]);
  });

  test.each(SHELVES)("neighbours in %s leave each other alone", (shelf, shared) => {
    const wrong = sourceFiles(shelf).flatMap(({ path, imports }) => {
      const self = basename(path).replace(/\.ts$/, "");
      const isNeighbour = (i: string) =>
        i.startsWith(`${shelf}/`) && !i.slice(shelf.length + 1).includes("/") && !shared.includes(basename(i));
      const inOwnFolder = path.slice(shelf.length + 1).includes("/");
      return shared.includes(self) || inOwnFolder ? [] : imports.filter(isNeighbour).map((i) => `${path} imports ${i}`);
    });
    expect(wrong).toEqual([]);
  });
});

describe("shared and analysis are pure", () => {
  const NOT_HERE =
    /\b(?:process\.|Buffer\b|__dirname|require\(|\bwindow\.(?:document|location|add)|document\.(?:get|query|create|body)|localStorage|Math\.random\(|Date\.now\(|new Date\(\)|performance\.now\(|setTimeout\(|console\.)/;
  test.each(["shared", "analysis"])("%s knows no machine, page, wall clock or unseeded chance", (room) => {
    const code = (text: string) => text.replace(/\/\*[\s\S]*?\*\//g, "").replace(/\/\/.*$/gm, "");
    expect(
      sourceFiles(room).flatMap(({ path, text }) => (NOT_HERE.test(code(text)) ? [`${path}: ${NOT_HERE.exec(code(text))?.[0]}`] : [])),
    ).toEqual([]);
  });
  test("no node: module in shared or analysis", () => {
    const wrong = [...sourceFiles("shared"), ...sourceFiles("analysis")].filter(({ imports }) =>
      imports.some((i) => i.startsWith("node:")),
    );
    expect(wrong.map(({ path }) => path)).toEqual([]);
  });
});

describe("files keep to their size and names", () => {
  const all = ["shared", "analysis", "src"].flatMap(sourceFiles);
  test("no file passes 300 lines", () =>
    expect(all.filter(({ text }) => text.split("\n").length > 301).map(({ path }) => path)).toEqual([]));
  test("names are kebab-case and say what is inside", () => {
    const wrong = all.filter(
      ({ path }) =>
        !/^[a-z0-9]+(?:-[a-z0-9]+)*(?:\.(?:worker|config|d))?\.tsx?$/.test(basename(path)) ||
        /\b(?:utils|helpers?|manager|misc|common)\b/.test(basename(path)),
    );
    expect(wrong.map(({ path }) => path)).toEqual([]);
  });
  test("no code put to sleep", () => {
    const wrong = all.filter(({ text }) => /@ts-ignore|^\s*\/\/\s*(?:const|let|return|if) .*[;{]$/m.test(text));
    expect(wrong.map(({ path }) => path)).toEqual([]);
  });
});

test("the top level holds what the map says and nothing else", () => {
  const tracked = readdirSync(TOP).filter((name) => ![".git", "node_modules", "dist"].includes(name));
  const allowed = [
    ".ci",
    ".gitignore",
    ".npmrc",
    "DEVELOPERS.md",
    "README.md",

    "analysis",
    "biome.json",

    "package-lock.json",
    "package.json",
    "sample-data",
    "shared",
    "src",
    "tests",
    "tsconfig.json",
  ];
  expect(tracked.filter((name) => !allowed.includes(name))).toEqual([]);
});

test("the version in documents is the package's", () => {
  expect(JSON.parse(readFileSync(join(TOP, "package.json"), "utf8"))).toMatchObject({ version: PROGRAM_VERSION });
});
