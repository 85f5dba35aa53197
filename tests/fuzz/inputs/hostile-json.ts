import fc from "fast-check";
import { SITE_FACTS, SITE_LIMITS } from "../../../shared/site/read-site-facts";

const quantity = fc.oneof(
  fc
    .tuple(
      fc.double(),
      fc.constantFrom("psi", "bar", "kPa", "gal", "L", "gpm", "m3/h", "hp", "kW", "in", "ft", "m", "s", "min", "", "psia", "°"),
    )
    .map(([n, u]) => `${n} ${u}`),
  fc.constantFrom(
    "1e999 psi",
    "-0 psi",
    "1,5 bar",
    "1.000,5 bar",
    "52psi",
    "psi 52",
    "½ in",
    "1 1/4 in",
    "5'6\"",
    "٣ bar",
    "0x10 bar",
    "1e400",
    "--5 bar",
  ),
  fc.string({ unit: "binary", maxLength: 40 }),
);
/** Nested so deep that whoever walks it by calling himself falls: as text, since writing it as JSON would be such a walk. */
const deep = (levels: number, open: string, close: string) => open.repeat(levels) + close.repeat(levels);
export const DEEP_TEXTS: readonly string[] = [
  deep(20_000, "[", "]"),
  `${'{"a":'.repeat(20_000)}1${"}".repeat(20_000)}`,
  deep(200_000, "[", "]"),
];
const value: fc.Arbitrary<string> = fc.oneof(
  { weight: 6, arbitrary: quantity.map((text) => JSON.stringify(text)) },
  { weight: 2, arbitrary: fc.json({ maxDepth: 4 }) },
  {
    weight: 1,
    arbitrary: fc.constantFrom(...DEEP_TEXTS, "1e999", "-0", "null", "true", "[]", "{}", `"${"9".repeat(5000)}"`, '"\\ud800"', '"\\u0000"'),
  },
);
const NAMES = [...Object.keys(SITE_FACTS), ...Object.keys(SITE_LIMITS), "limits"];
const name = fc.oneof(
  { weight: 8, arbitrary: fc.constantFrom(...NAMES) },
  { weight: 1, arbitrary: fc.constantFrom("__proto__", "constructor", "toString", "") },
  { weight: 1, arbitrary: fc.string() },
);
const object = (entries: readonly (readonly [string, string])[]) =>
  `{${entries.map(([key, text]) => `${JSON.stringify(key)}:${text}`).join(",")}}`;

/** Site files as text: known and unknown facts, limits, values of every kind. */
export const siteText: fc.Arbitrary<string> = fc.oneof(
  {
    weight: 8,
    arbitrary: fc
      .tuple(fc.array(fc.tuple(name, value), { maxLength: 8 }), fc.option(fc.array(fc.tuple(name, value), { maxLength: 4 }), { freq: 3 }))
      .map(([facts, limits]) => object(limits === null ? facts : [...facts, ["limits", object(limits)]])),
  },
  { weight: 1, arbitrary: fc.constantFrom(...DEEP_TEXTS, "", "null", "[]", "{", "\ufeff{}") },
  { weight: 1, arbitrary: fc.json() },
);

export const hostileJson: fc.Arbitrary<string> = fc.oneof(fc.json({ maxDepth: 5 }), fc.constantFrom(...DEEP_TEXTS), siteText);

const PARTS = [
  "format",
  "version",
  "sums",
  "about",
  "site",
  "choices",
  "checklist",
  "findings",
  "trace",
  "log",
  "__proto__",
  "constructor",
];
const leaf: fc.Arbitrary<string> = fc.oneof(value, fc.constantFrom('"evenhead-visit"', "1", "2", "1e308", "-1", "0.5"));

/** A visit file's text with some of its parts put aside for others: still one part a line. */
export const visitText = (whole: string): fc.Arbitrary<string> =>
  fc
    .tuple(
      fc.array(
        fc.tuple(
          fc.constantFrom(...PARTS),
          fc.oneof(
            leaf,
            fc
              .tuple(fc.constantFrom("a", "entries", "files", "record", "channels", "__proto__"), leaf)
              .map(([key, text]) => object([[key, text]])),
          ),
        ),
        { maxLength: 5 },
      ),
      fc.boolean(),
      fc.boolean(),
    )
    .map(([parts, keepSums, oneLine]) => {
      const others = new Map(parts);
      const lines = whole
        .split("\n")
        .filter((line) => keepSums || !line.startsWith('"sums"'))
        .map((line) => {
          const part = /^\{?"([a-z]+)":/.exec(line)?.[1] ?? "";
          const other = others.get(part);
          return other === undefined ? line : `${line.startsWith("{") ? "{" : ""}"${part}":${other}${line.endsWith(",") ? "," : ""}`;
        });
      return lines.join(oneLine ? " " : "\n");
    });
