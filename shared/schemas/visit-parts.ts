import * as v from "valibot";
import { CHANNEL_ROLES } from "../record/channel-role";

/**
 * The parts of a saved visit, each checked by itself. Version 3 of the form; a change of any part makes a new version and an upgrader in
 * visit-file.ts.
 */

/** Texts by name. Names that mean something to every object ("__proto__") are dropped by the library. */
const texts = v.pipe(
  v.record(v.string(), v.string()),
  v.transform((entries): Readonly<Record<string, string>> => entries),
);

export const aboutSchema = v.object({
  id: v.pipe(v.string(), v.minLength(1), v.maxLength(100)),
  title: v.string(),
  /** When it was saved, ISO 8601 UTC. */
  saved: v.pipe(v.string(), v.isoTimestamp()),
  program: v.string(),
});

/** Facts as the person wrote them, by the names of the site file. */
export const siteSchema = texts;

export const choicesSchema = v.object({
  answers: texts,
  columns: v.array(v.object({ heading: v.string(), role: v.picklist(CHANNEL_ROLES), unit: v.nullable(v.string()) })),
  zone: v.nullable(v.string()),
});

export const checklistSchema = v.object({
  entries: v.array(v.object({ step: v.string(), done: v.boolean(), note: v.string() })),
  notes: v.string(),
});

const sample = v.nullable(v.number());
/** Least and greatest value in each of `low.length` equal stretches of the record: enough for a small picture. SI. */
export const traceSchema = v.object({
  /** Length of the record, s. */
  duration: v.number(),
  channels: v.array(
    v.object({ heading: v.string(), role: v.picklist(CHANNEL_ROLES), quantity: v.string(), low: v.array(sample), high: v.array(sample) }),
  ),
});

const sums = v.array(v.number());
const counts = v.nullable(sums);
const profile = v.nullable(
  v.object({
    count: v.number(),
    fromS: v.number(),
    stepS: v.number(),
    low: v.array(sample),
    middle: v.array(sample),
    high: v.array(sample),
  }),
);
const limit = v.nullable(v.number());
/** What a comparison needs, so that a visit can be compared without its log; the fields are told in shared/findings/comparison.ts. Since version 2. */
export const measuresSchema = v.pipe(
  v.object({
    beginsS: v.optional(v.nullable(v.number()), null),
    blockS: v.pipe(v.number(), v.gtValue(0)),
    blocks: v.object({
      pumpKnown: sums,
      starts: sums,
      shortCycles: counts,
      lookedAt: sums,
      tracked: sums,
      withinBand: sums,
      drawn: counts,
    }),
    slower: v.array(v.object({ atLeastS: v.number(), starts: sums, shortCycles: counts })),
    pumpIntervalS: v.nullable(v.number()),
    runsFromPressure: v.optional(v.boolean(), false),
    shortLimitS: v.number(),
    peakStartsPerHour: v.nullable(v.number()),
    bandPa: v.nullable(v.number()),
    intervalS: v.nullable(v.number()),
    episodes: v.array(v.object({ fromS: v.number(), toS: v.number(), periodS: v.number(), heightPa: v.number() })),
    driftsPa: sums,
    days: profile,
    cycles: profile,
    limits: v.object({
      "starts-per-hour": limit,
      "short-cycles-per-day": limit,
      "oscillating-share": limit,
      "oscillation-height": limit,
      "drift-at-steady-flow": limit,
      "share-within-band": limit,
    }),
  }),
  v.check(({ blocks, slower }) => {
    const counted = [blocks, ...slower].flatMap((of) => Object.values(of)).filter((value) => Array.isArray(value));
    return blocks.starts.length > 0 && counted.every((list) => list.length === blocks.starts.length);
  }, "every block has every sum"),
);

/**
 * The earlier visit that this one is compared with: its measures, not what came out, so that the comparison follows when this visit is worked
 * out again with other facts. Since version 3.
 */
export const beforeSchema = v.object({ name: v.string(), measures: measuresSchema });

/** The log's files as they were, gzip and base64: only where the person asked for it. */
export const logSchema = v.object({
  files: v.array(v.object({ name: v.string(), bytes: v.number(), sha256: v.nullable(v.string()), content: v.string() })),
});

const instant = v.union([v.string(), v.number()]);
const sentences = v.array(v.string());
/**
 * The findings document as far as a reader leans on it; further fields are kept as they are. The numbers inside are SI, unknown is null.
 */
export const findingsSchema = v.looseObject({
  format: v.literal("evenhead-findings"),
  version: v.number(),
  program: v.string(),
  error: v.nullable(v.looseObject({ kind: v.string(), message: v.string() })),
  record: v.looseObject({
    files: v.array(v.looseObject({ name: v.string(), bytes: v.number(), sha256: v.nullable(v.string()) })),
    from: v.nullable(instant),
    to: v.nullable(instant),
    channels: v.array(v.looseObject({ heading: v.string(), role: v.string() })),
  }),
  causes: v.array(v.looseObject({ id: v.string(), confidence: v.number(), for: sentences, against: sentences, toSeparate: v.string() })),
  cannotTell: v.array(v.looseObject({ id: v.string(), about: v.string(), text: v.string() })),
  advice: v.array(v.looseObject({ id: v.string(), do: v.string(), amount: v.nullable(v.string()), cautions: sentences })),
  findings: v.array(v.looseObject({ kind: v.string(), title: v.string(), text: v.string() })),
});

/** What was read is not written on. */
type Kept<T> = T extends readonly (infer U)[] ? readonly Kept<U>[] : T extends object ? { readonly [K in keyof T]: Kept<T[K]> } : T;

export type VisitAbout = Kept<v.InferOutput<typeof aboutSchema>>;
export type KeptChoices = Kept<v.InferOutput<typeof choicesSchema>>;
export type KeptChecklist = Kept<v.InferOutput<typeof checklistSchema>>;
export type ThinTrace = Kept<v.InferOutput<typeof traceSchema>>;
export type KeptMeasures = Kept<v.InferOutput<typeof measuresSchema>>;
export type KeptBefore = Kept<v.InferOutput<typeof beforeSchema>>;
export type KeptLog = Kept<v.InferOutput<typeof logSchema>>;
export type KeptFindings = Kept<v.InferOutput<typeof findingsSchema>>;
