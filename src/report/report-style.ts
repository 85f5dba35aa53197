import type { ReportInput } from "./report-input";

/** The report's own style: paper and ink, one column; on paper the customer's page stands alone and the rest flows. */
export const reportStyle = (paper: ReportInput["paper"]): string => `
@page { size: ${paper === "A4" ? "A4" : "letter"}; margin: 17mm 16mm 18mm; @bottom-right { content: counter(page) " / " counter(pages); font: 8pt Optima, Candara, Calibri, "Noto Sans", "DejaVu Sans", sans-serif; color: #4a555a; } }
* { box-sizing: border-box; }
body { font: 10.5pt/1.45 Optima, Candara, Calibri, "Noto Sans", "DejaVu Sans", sans-serif; color: #1d2426; background: #fff; max-width: 46rem; margin: 2rem auto; padding: 0 1rem; font-variant-numeric: tabular-nums; }
h1 { font-size: 19pt; line-height: 1.2; margin: 0 0 0.4rem; } h2 { font-size: 14pt; margin: 1.6rem 0 0.5rem; border-bottom: 1px solid #7c868a; } h3 { font-size: 10.5pt; margin: 0.9rem 0 0.2rem; }
p, ul, ol { margin: 0.2rem 0 0.5rem; } li { margin: 0.12rem 0; }
header { display: flex; justify-content: space-between; gap: 2rem; align-items: flex-start; border-bottom: 2px solid #1d2426; padding-bottom: 0.6rem; } header p { margin: 0; }
header img { display: block; height: 15mm; width: 60mm; object-fit: contain; object-position: right top; margin: 0 0 0.3rem auto; } .letterhead { flex: none; max-width: 45%; text-align: right; font-size: 9pt; white-space: pre-line; }
table { border-collapse: collapse; width: 100%; font-size: 9pt; line-height: 1.35; } th, td { text-align: left; vertical-align: top; padding: 0.22rem 0.6rem 0.22rem 0; border-bottom: 1px solid #cdd2cc; } thead th { border-bottom: 1px solid #1d2426; } tbody th { font-weight: 400; } td.verdict { font-weight: 650; } .plain { font-size: 9.5pt; } .checks th:nth-child(1), .checks td:nth-child(1) { width: 28%; } .checks th:nth-child(2) { width: 24%; } .checks th:nth-child(3) { width: 18%; } .plain.checks th:nth-child(1) { width: 50%; } .plain.checks th:nth-child(2), .plain.checks th:nth-child(3) { width: 19%; }
.note { font-size: 8.5pt; line-height: 1.4; color: #4a555a; } .hash { font-family: monospace; font-size: 8pt; overflow-wrap: anywhere; }
.cautions { list-style: none; padding: 0 0 0 0.6rem; border-left: 4px double #1d2426; font-size: 9.5pt; } .cautions li { margin: 0.1rem 0; } .plain-cautions { font-size: 10.5pt; font-weight: 650; }
.written { white-space: pre-line; }
svg { width: 100%; height: auto; display: block; margin: 0.4rem 0; } svg text { font-size: 11px; fill: #1d2426; } svg .tick { fill: #4a555a; } svg .name { font-weight: 650; } svg .level-name { fill: #4a555a; }
svg path { fill: none; stroke: #6654d4; stroke-width: 1; } svg .pressure path { stroke: #255378; } svg .flow path { stroke: #b7538e; } svg .speed path { stroke: #4f8f5f; } svg .current path, svg .power path { stroke: #543917; }
svg .grid, svg .mark { stroke: #dfe3de; stroke-width: 0.6; } svg .mark { stroke: #7c868a; } svg .shade { fill: #f3e7a6; } svg .band { fill: #255378; fill-opacity: 0.1; } svg .level { stroke: #1d2426; stroke-width: 1; stroke-dasharray: 6 3; }
figure { margin: 0; } svg .middle { stroke-width: 1.6; } svg .before { stroke: #a5672a; fill: none; } svg .after { stroke: #255378; fill: none; } svg .spread.before { stroke-width: 0.8; stroke-dasharray: 1.5 2.5; } svg .spread.after { stroke: none; fill: #255378; fill-opacity: 0.2; } svg .middle.before { stroke-dasharray: 6 3; }
.alone h2 { margin-top: 0.9rem; } .alone h3 { margin-top: 0.6rem; } .alone p, .alone ul { margin-bottom: 0.3rem; } .plain th, .plain td { padding-top: 0.14rem; padding-bottom: 0.14rem; }
@media print { body { margin: 0; max-width: none; padding: 0; } .alone { break-after: page; } .alone:last-child { break-after: auto; } tr, svg, figure, h3, li li, .cautions, .evidence li, .together table { break-inside: avoid; } h2, h3, .lead, article svg { break-after: avoid; } p { orphans: 3; widows: 3; } thead { display: table-header-group; } table + .note { break-before: avoid; } }
`;
