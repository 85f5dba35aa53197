import { type Markup, markup } from "../markup";
import type { ReportInput } from "../report-input";

export function cannotShowSection({ document }: ReportInput): Markup | null {
  if (document.cannotTell.length === 0) return null;
  return markup`<section><h2>What this log cannot show</h2><ul>${document.cannotTell.map((c) => markup`<li>${c.text}</li>`)}</ul></section>`;
}
