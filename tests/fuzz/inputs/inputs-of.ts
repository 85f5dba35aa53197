import fc from "fast-check";
import { zipSync } from "fflate";
import { refusedDocument } from "../../../analysis/document/findings-document";
import { CHANNEL_ROLES } from "../../../shared/record/channel-role";
import type { TargetId } from "../checks";
import { CONTAINERS, LOGS, VISIT_TEXTS } from "./bases";
import { changedBytes } from "./change-bytes";
import { DEEP_TEXTS, hostileJson, siteText, visitText } from "./hostile-json";
import { oddTable } from "./odd-tables";

/** A way of making inputs for a target; `pool` holds earlier inputs that did something new. */
export type Family = { readonly name: string; readonly make: (pool: readonly Uint8Array[]) => fc.Arbitrary<Uint8Array> };

const utf8 = (text: string) => new TextEncoder().encode(text);
const texts = (arbitrary: fc.Arbitrary<string>) => arbitrary.map(utf8);
const family = (name: string, make: Family["make"]): Family => ({ name, make });

const SITE = utf8(
  '{"setPressure":"52 psi","tankVolume":"20 gal","precharge":"34 psi","limits":{"band":"3 psi","startsPerHour":10},"zone":"Europe/Lisbon"}',
);
/** A document with instants, names and causes, as far as a round looks at it. */
const VISITED = utf8(
  JSON.stringify({
    ...refusedDocument({ kind: "example", message: "an example of the form", file: null, row: null }),
    error: null,
    site: { name: { value: "Mill Lane" } },
    record: {
      files: [{ name: "a.csv", bytes: 1, sha256: null }],
      from: "2026-03-01T00:00:00Z",
      to: "2026-03-02T00:00:00Z",
      channels: [],
    },
    causes: [{ id: "precharge-low", confidence: 0.5, for: [], against: [], toSeparate: "" }],
    findings: [{ kind: "drift", title: "Pressure drifts", text: "", overLimit: true }],
  }),
);
const FINDINGS = utf8(JSON.stringify(refusedDocument({ kind: "example", message: "an example of the form", file: null, row: null })));

/** What a person may say of a log, as JSON with the log in it; headings from the log and from nowhere. */
const ordered = (log: fc.Arbitrary<Uint8Array>): fc.Arbitrary<Uint8Array> =>
  fc
    .record({
      log,
      answers: fc.array(
        fc.tuple(
          fc.constantFrom(
            "date-order",
            "time-zone",
            "start-time",
            "interval",
            "unit:",
            "k-factor:",
            "range:",
            "reference:",
            "column-role:",
            "decimal",
            "sentinel:",
            "clock",
            "__proto__",
            "toString",
          ),
          fc.nat(8),
          fc.oneof(
            fc.constantFrom(
              "dmy",
              "mdy",
              "ymd",
              "Europe/Lisbon",
              "+25:00",
              "2024-01-01 00:00",
              "1 s",
              "0 s",
              "-1 s",
              "1e999 s",
              "bar",
              "psi",
              "gauge",
              "absolute",
              "0..10 bar",
              "10..0 bar",
              "4..20 mA",
              "450",
              "0",
              "none",
              ",",
              ".",
              "999",
              "pressure",
              "flow",
              "",
            ),
            fc.string(),
          ),
        ),
        { maxLength: 4 },
      ),
      columns: fc.array(
        fc.tuple(
          fc.nat(8),
          fc.constantFrom(...CHANNEL_ROLES),
          fc.option(fc.constantFrom("psi", "bar", "gpm", "Hz", "A", "nonsense", "%", "s", "iso", "°C")),
        ),
        { maxLength: 3 },
      ),
      zone: fc.option(fc.constantFrom("Europe/Lisbon", "Australia/Lord_Howe", "+05:45", "nowhere", "-12:00")),
    })
    .map(({ log: bytes, answers, columns, zone }) => {
      const text = new TextDecoder().decode(bytes);
      const headings = text.split(/[\n,;\t"]/, 40).map((cell) => cell.trim());
      const named = (i: number) => headings[i % headings.length] ?? "";
      return utf8(
        JSON.stringify({
          log: text,
          answers: Object.fromEntries(answers.map(([id, i, value]) => [id.endsWith(":") ? id + named(i) : id, value])),
          columns: columns.map(([i, role, unit]) => ({ heading: named(i), role, unit })),
          zone,
        }),
      );
    });

const wrapped = (inner: fc.Arbitrary<Uint8Array>, end: string) =>
  fc
    .array(inner, { minLength: 1, maxLength: 3 })
    .map((files) => zipSync(Object.fromEntries(files.map((bytes, i) => [`${i}${end}`, bytes]))));

const visits = VISIT_TEXTS.map(utf8);
const anyVisit = fc.constantFrom(...VISIT_TEXTS).chain(visitText);

export const FAMILIES: Readonly<Record<TargetId, readonly Family[]>> = {
  importer: [
    family("samples changed", (pool) => changedBytes([...LOGS, ...pool])),
    family("finds changed", (pool) => changedBytes(pool.length > 0 ? pool : LOGS)),
    family("odd tables", () => oddTable),
    family("any bytes", () => fc.uint8Array({ maxLength: 400 })),
    family("any text", () => texts(fc.string({ unit: "binary", maxLength: 400 }))),
  ],
  containers: [
    family("packed changed", (pool) => changedBytes([...CONTAINERS, ...pool])),
    family("logs packed", () => wrapped(changedBytes(LOGS.filter(({ length }) => length < 4000)), ".csv")),
  ],
  corrections: [
    family("samples", (pool) => ordered(changedBytes([...LOGS.filter(({ length }) => length < 4000), ...pool.slice(0, 0)]))),
    family("odd tables", () => ordered(oddTable)),
  ],
  "site-file": [family("facts", () => texts(siteText)), family("changed", (pool) => changedBytes([SITE, ...pool]))],
  visit: [
    family("parts changed", () => texts(anyVisit)),
    family("bytes changed", (pool) => changedBytes([...visits, ...pool])),
    family("any JSON", () => texts(hostileJson)),
  ],
  archive: [
    family("zips of visits", () => wrapped(texts(anyVisit), ".json")),
    family("changed", (pool) => changedBytes([...visits, zipSync({ "a.json": visits[0], "b.json": visits[1] }), ...pool])),
  ],
  findings: [
    family("parts changed", () =>
      texts(
        fc
          .constantFrom(FINDINGS, VISITED)
          .map((bytes) => new TextDecoder().decode(bytes).replaceAll(',"', ',\n"'))
          .chain(visitText),
      ),
    ),
    family("bytes changed", (pool) => changedBytes([FINDINGS, VISITED, VISITED, ...visits, ...pool])),
    family("deep", () => texts(fc.constantFrom(...DEEP_TEXTS))),
  ],
};
