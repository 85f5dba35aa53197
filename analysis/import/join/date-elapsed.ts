import type { ImportQuestion } from "../../../shared/record/import-question";
import type { FilePart } from "../file-part";

/** Parts over one kind of clock, and the question that this raised. */
export type DatedParts = { readonly dated: readonly FilePart[]; readonly question: ImportQuestion | null };

/**
 * A part that counts from its own start, beside parts with dates, is laid at the start of the longest dated one, and its start is asked. Parts that
 * all count stay as they are.
 */
export function dateElapsed(parts: readonly FilePart[]): DatedParts {
  const withDates = parts.filter((part) => part.clock.kind === "absolute");
  const without = parts.filter((part) => part.clock.kind === "elapsed");
  if (withDates.length === 0 || without.length === 0) return { dated: parts, question: null };
  const { file, clock } = withDates.reduce((a, b) => (b.duration > a.duration ? b : a));
  const start = `${new Date(Math.round((clock.kind === "absolute" ? clock.epoch : 0) * 1000)).toISOString().slice(0, 19).replace("T", " ")}Z`;
  return {
    dated: parts.map((part) => (part.clock.kind === "elapsed" ? { ...part, clock } : part)),
    question: {
      id: "start-time",
      asks: { kind: "start-beside", files: without.map((part) => part.file.name), dated: file.name },
      options: [start],
      assumed: start,
    },
  };
}
