import type { ClockInWords } from "../wording/clock-reading";
import type { ColumnReason } from "../wording/column-reason";
import type { ChannelRole } from "./channel-role";

/** What a line of the file's head is. */
export type LineKind = "preamble" | "heading" | "units" | "data" | "comment" | "footer" | "blank" | "rejected" | "other-table";

/** How one file was understood: for the bring-in view and for the memory of corrections. */
export type FileLayout = {
  readonly file: string;
  /** "utf-8", "utf-16le", "utf-16be", "windows-1252", "ibm850". */
  readonly encoding: string;
  /** The separator as a character, "spaces" for runs of spaces, "fixed-width". */
  readonly delimiter: string;
  readonly decimal: "." | ",";
  readonly thousands: string | null;
  /** Id of the dialect in analysis/import/dialects. */
  readonly dialect: string;
  /** The first lines and the last few as the file has them (cut at 400 characters), with what each was taken for. */
  readonly lines: readonly {
    readonly line: number;
    readonly text: string;
    readonly kind: LineKind;
    readonly cells: readonly string[] | null;
  }[];
  readonly columns: readonly {
    readonly heading: string;
    readonly index: number;
    readonly role: ChannelRole;
    readonly unit: string | null;
    readonly certainty: number;
    readonly reason: ColumnReason;
    /** Least and greatest value as the file writes them; null for text. */
    readonly range: { readonly low: number; readonly high: number } | null;
    /** Up to sixty values over the whole file for a small picture, as the file writes them; null where missing. */
    readonly picture: readonly (number | null)[];
    /** Units that could stand here, likeliest first. */
    readonly unitOptions: readonly string[];
  }[];
  /** From what the clock was read. */
  readonly clock: readonly ClockInWords[];
  /** Headings and their order as one string: files with the same one share corrections. */
  readonly signature: string;
};
