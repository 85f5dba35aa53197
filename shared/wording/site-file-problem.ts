import type { SiteFileProblem } from "../problems/site-file-problem";

/** What is wrong with a site file or a site fact, and what to do. */
export function saySiteFileProblem(p: SiteFileProblem): string {
  const where = p.file === "" ? "Site facts" : p.file;
  switch (p.id) {
    case "cannot-open-site":
      return `${where} could not be opened (${p.why}). Check the name of the site file.`;
    case "not-json":
      return `${where} is not valid JSON (${p.why}). Mend the file, or leave it out and enter the site facts in the page.`;
    case "not-an-object":
      return `${where} must hold one object of site facts, for example { "setPressure": "52 psi", "tankVolume": "20 gal" }.`;
    case "not-limits":
      return `${where} is not a file of company limits in a form that this version knows. Save one in the page, under Acceptance.`;
    case "unknown-fact":
      return `${where}: "${p.fact}" is not a site fact. Known: ${p.known.join(", ")}.`;
    case "wrong-value":
      return `${where}: "${p.fact}" reads "${p.text}". Write it with its unit, like ${p.expected}.`;
    case "facts-disagree":
      return `${where}: "${p.fact}" and "${p.other}" contradict each other: ${p.why}. Correct one of them.`;
  }
}
