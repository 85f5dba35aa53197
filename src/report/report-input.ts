import type { Checklist } from "../../shared/findings/checklist";
import type { ComparedVisits } from "../../shared/findings/comparison";
import type { ThinTrace } from "../../shared/record/thin-trace";
import type { FindingsDocument } from "../../shared/schemas/findings-document";
import type { UnitChoice } from "../../shared/units/unit-choice";

export const REPORT_SECTIONS = [
  "customer",
  "trace",
  "findings",
  "acceptance",
  "before-and-after",
  "causes",
  "next-visit",
  "notes",
  "cannot-show",
  "site-facts",
  "record",
] as const;
export type ReportSectionId = (typeof REPORT_SECTIONS)[number];

/** Own letterhead: text lines and a picture as a data address (PNG, JPEG or SVG), both optional. */
export type Letterhead = { readonly lines: readonly string[]; readonly logo: string | null };

/** All that a report is written from. */
export type ReportInput = {
  readonly siteName: string | null;
  readonly document: FindingsDocument;
  readonly trace: ThinTrace;
  /** The worst stretch of each finding, closer: by the finding's index in the document. */
  readonly closeUps: readonly { readonly finding: number; readonly trace: ThinTrace }[];
  readonly comparison: ComparedVisits | null;
  /** What was ticked and written down on site: steps ticked as done are told as done, the rest is proposed. */
  readonly checklist: Checklist;
  readonly letterhead: Letterhead;
  readonly units: UnitChoice;
  readonly paper: "A4" | "Letter";
  readonly leaveOut: readonly ReportSectionId[];
  /** As the person wants it printed; the report itself asks no clock. */
  readonly writtenOn: string | null;
};

/** What a person decides about a report; the rest is worked out from the record. */
export type ReportOrder = Omit<ReportInput, "document" | "trace" | "closeUps">;
