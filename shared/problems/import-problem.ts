/** Which of its sizes is above a limit. */
export type TooLarge =
  | "packed-size"
  | "unpacked-size"
  | "entries"
  | "workbook-size"
  | "workbook-unpacked-size"
  | { readonly characters: number; readonly columns: number };
/** What is wrong with an archive; `message` is that of the unpacker itself. */
export type ArchiveDamage = "no-log" | "cut-before-content" | "check-sum" | { readonly entry: string } | { readonly message: string };

/** Why a file cannot be read as a log: plain data that crosses the worker border. Sentences in shared/wording/import-problem.ts. */
export type ImportProblem =
  | { readonly id: "no-files" }
  | { readonly id: "stopped" }
  | { readonly id: "cannot-open"; readonly file: string; readonly why: string }
  | { readonly id: "empty-file"; readonly file: string }
  | { readonly id: "not-text"; readonly file: string }
  | { readonly id: "no-table"; readonly file: string; readonly row: number }
  | { readonly id: "header-only"; readonly file: string; readonly row: number; readonly headings: readonly string[] }
  | { readonly id: "no-time-column"; readonly file: string; readonly row: number; readonly headings: readonly string[] }
  | { readonly id: "one-column"; readonly file: string; readonly row: number; readonly heading: string }
  | { readonly id: "no-values"; readonly file: string; readonly row: number; readonly headings: readonly string[] }
  | { readonly id: "too-large"; readonly file: string; readonly what: TooLarge; readonly limit: number }
  | { readonly id: "damaged-archive"; readonly file: string; readonly why: ArchiveDamage }
  | { readonly id: "unknown-column"; readonly heading: string; readonly headings: readonly string[] }
  | { readonly id: "unknown-answer"; readonly question: string; readonly answer: string; readonly options: readonly string[] }
  | { readonly id: "unasked"; readonly question: string; readonly raised: readonly string[] };

/** Thrown where reading cannot go on. */
export class ImportError extends Error {
  override readonly name = "ImportError";
  constructor(readonly problem: ImportProblem) {
    super(problem.id);
  }
}
