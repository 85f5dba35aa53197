import type { Markup } from "../markup";
import type { ReportInput, ReportSectionId } from "../report-input";
import { acceptanceSection } from "./acceptance";
import { beforeAndAfterSection } from "./before-and-after";
import { cannotShowSection } from "./cannot-show";
import { causesSection } from "./causes";
import { customerSection } from "./customer";
import { findingsSection } from "./findings";
import { nextVisitSection } from "./next-visit";
import { notesSection } from "./notes";
import { recordSection, siteFactsSection } from "./reference";
import { traceSection } from "./trace";

/** Sections in the order of the report; one that has nothing to say gives null. */
export const SECTIONS: readonly { readonly id: ReportSectionId; readonly write: (input: ReportInput) => Markup | null }[] = [
  { id: "customer", write: customerSection },
  { id: "trace", write: traceSection },
  { id: "findings", write: findingsSection },
  { id: "acceptance", write: acceptanceSection },
  { id: "before-and-after", write: beforeAndAfterSection },
  { id: "causes", write: causesSection },
  { id: "next-visit", write: nextVisitSection },
  { id: "notes", write: notesSection },
  { id: "cannot-show", write: cannotShowSection },
  { id: "site-facts", write: siteFactsSection },
  { id: "record", write: recordSection },
];
