import type { Markup } from "../markup";
import type { ReportInput, ReportSectionId } from "../report-input";
import { acceptanceSection } from "./acceptance";
import { customerSection } from "./customer";
import { recordSection, siteFactsSection } from "./reference";
import { beforeAndAfterSection, cannotShowSection, causesSection, findingsSection, nextVisitSection, traceSection } from "./technical";

/** Sections in the order of the report; one that has nothing to say gives null. */
export const SECTIONS: readonly { readonly id: ReportSectionId; readonly write: (input: ReportInput) => Markup | null }[] = [
  { id: "customer", write: customerSection },
  { id: "trace", write: traceSection },
  { id: "findings", write: findingsSection },
  { id: "acceptance", write: acceptanceSection },
  { id: "before-and-after", write: beforeAndAfterSection },
  { id: "causes", write: causesSection },
  { id: "next-visit", write: nextVisitSection },
  { id: "cannot-show", write: cannotShowSection },
  { id: "site-facts", write: siteFactsSection },
  { id: "record", write: recordSection },
];
