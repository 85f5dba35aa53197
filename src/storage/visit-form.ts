import type { ImportChoices } from "../../analysis/import/import-log";
import type { Checklist } from "../../shared/findings/checklist";
import type { NamedMeasures, VisitMeasures } from "../../shared/findings/comparison";
import type { VisitFile } from "../../shared/schemas/visit-file";
import type { KeptLog, ThinTrace } from "../../shared/schemas/visit-parts";
import { PROGRAM_VERSION } from "../../shared/version";
import { firstAndMore } from "../../shared/wording/file-name";
import { pyramidColumns } from "../charts/pyramid";
import type { SiteEntry, Visit } from "../state/visit-state";

/** What of the page belongs to a visit. */
export type OpenVisit = {
  readonly id: string;
  readonly visit: Visit;
  readonly site: SiteEntry;
  readonly checklist: Checklist;
  /** Null where they could not be worked out. */
  readonly measures: VisitMeasures | null;
  /** The earlier visit it is compared with. */
  readonly before: NamedMeasures | null;
};

/** The visit in its saved form. @param saved Unix time, ms     @param log the packed log where it was asked for */
export function toVisitFile({ id, visit, site, checklist, measures, before }: OpenVisit, saved: number, log: KeptLog | null): VisitFile {
  return {
    about: { id, title: visitTitle(visit, site), saved: new Date(saved).toISOString(), program: PROGRAM_VERSION },
    site: site.written,
    choices: visit.choices,
    checklist,
    findings: visit.document,
    measures: measures === null ? null : shortened(measures),
    before: before === null ? null : { ...before, measures: shortened(before.measures) },
    trace: thinTrace(visit),
    log,
  };
}

/** The site's name where it has one, else the names of the files. */
export const visitTitle = (visit: Pick<Visit, "files">, site: SiteEntry): string => {
  const names = visit.files.map((file) => file.name);
  return site.facts.name ?? (names.length <= 2 ? names.join(", ") : firstAndMore(names[0], names.length - 1));
};

/** Sums to the hundredth of a second or six figures: finer than any logger's clock and meter, and half the length. */
function shortened(measures: VisitMeasures): VisitMeasures {
  const short = (x: number) => Number(x.toPrecision(6));
  const { blocks } = measures;
  return {
    ...measures,
    blocks: {
      ...blocks,
      pumpKnown: blocks.pumpKnown.map(short),
      lookedAt: blocks.lookedAt.map(short),
      tracked: blocks.tracked.map(short),
      withinBand: blocks.withinBand.map(short),
      drawn: blocks.drawn?.map(short) ?? null,
    },
    driftsPa: measures.driftsPa.map(short),
  };
}

/** Stretches of the small picture: finer than a list of visits can draw it. */
const STRETCHES = 300;

function thinTrace({ outline, traces }: Visit): ThinTrace {
  const step = outline.duration / STRETCHES;
  const plain = (values: Float32Array) => Array.from(values, (value) => (Number.isFinite(value) ? Number(value.toPrecision(5)) : null));
  return {
    duration: outline.duration,
    channels: traces.map((trace) => {
      const { min, max } = pyramidColumns(trace.pyramid, 0, step, step > 0 ? STRETCHES : 0);
      return { heading: trace.heading, role: trace.role, quantity: trace.quantity, low: plain(min), high: plain(max) };
    }),
  };
}

/** How a kept visit was read, ready to be read so again. */
export const choicesOf = (kept: VisitFile): ImportChoices => kept.choices ?? { answers: {}, columns: [], zone: null };
