import { IN_REPORT } from "../../shared/wording/report";
import { markup } from "./markup";
import type { ReportInput } from "./report-input";
import { reportStyle } from "./report-style";
import { SECTIONS } from "./sections";
import { timeLabels } from "./time-labels";

const POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:";
/** Only pictures that a reader can show without fetching anything. */
const LOGO = /^data:image\/(?:png|jpeg|svg\+xml);base64,[A-Za-z0-9+/=]+$/;

/**
 * One self-contained HTML file: no script, no outside reference, readable anywhere and printable on A4 or Letter.
 * @throws RangeError where the logo is not a PNG, JPEG or SVG data address
 */
export function writeReport(input: ReportInput): string {
  const { letterhead, siteName, document } = input;
  if (letterhead.logo !== null && !LOGO.test(letterhead.logo))
    throw new RangeError("writeReport: the logo must be a PNG, JPEG or SVG picture");
  const title = IN_REPORT.title(siteName);
  const sections = SECTIONS.filter(({ id }) => !input.leaveOut.includes(id)).map(({ write }) => write(input));
  const page = markup`<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta http-equiv="Content-Security-Policy" content="${POLICY}"><meta name="viewport" content="width=device-width, initial-scale=1"><title>${title}</title><style>${{ html: reportStyle(input.paper) }}</style></head>
<body><header><div><h1>${title}</h1><p>${timeLabels(document, input.units.locale).whole}${input.writtenOn === null ? "" : IN_REPORT.written(input.writtenOn)}</p></div>
<div class="letterhead">${letterhead.logo === null ? null : markup`<img src="${letterhead.logo}" alt="">`}${letterhead.lines.join("\n")}</div></header>
<main>${sections}</main></body></html>
`;
  return page.html;
}
