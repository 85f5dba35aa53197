import type { ReportInput } from "./report-input";

/** The report's own style: paper and ink, one column, page breaks before the large parts. */
export const reportStyle = (paper: ReportInput["paper"]): string => `
@page { size: ${paper === "A4" ? "A4" : "letter"}; margin: 18mm 16mm; }
* { box-sizing: border-box; }
body { font: 11pt/1.5 Optima, Candara, Calibri, "Noto Sans", "DejaVu Sans", sans-serif; color: #1d2426; background: #fff; max-width: 46rem; margin: 2rem auto; padding: 0 1rem; font-variant-numeric: tabular-nums; }
h1 { font-size: 20pt; line-height: 1.2; margin: 0 0 0.5rem; } h2 { font-size: 14pt; margin: 1.5rem 0 0.5rem; border-bottom: 1px solid #7c868a; } h3 { font-size: 11pt; margin: 1rem 0 0.25rem; }
p, ul, ol { margin: 0.25rem 0 0.6rem; } li { margin: 0.15rem 0; }
header { display: flex; justify-content: space-between; gap: 2rem; align-items: flex-start; border-bottom: 2px solid #1d2426; padding-bottom: 0.75rem; }
header img { max-height: 4rem; max-width: 14rem; } .letterhead { text-align: right; font-size: 9pt; white-space: pre-line; }
table { border-collapse: collapse; width: 100%; font-size: 9.5pt; } th, td { text-align: left; vertical-align: top; padding: 0.25rem 0.5rem 0.25rem 0; border-bottom: 1px solid #cdd2cc; } thead th { border-bottom: 1px solid #1d2426; }
.note { font-size: 9pt; color: #4a555a; } .hash { font-family: monospace; font-size: 8pt; overflow-wrap: anywhere; }
.caution { font-weight: 650; list-style: none; border-left: 4px double #1d2426; padding-left: 0.6rem; }
svg { width: 100%; height: auto; display: block; margin: 0.5rem 0; } svg text { font-size: 11px; fill: #1d2426; } svg .tick { fill: #4a555a; } svg .name { font-weight: 650; paint-order: stroke; stroke: #fff; stroke-width: 3px; }
svg path { fill: none; stroke: #6654d4; stroke-width: 1; } svg .pressure path { stroke: #255378; } svg .flow path { stroke: #b7538e; } svg .speed path { stroke: #4f8f5f; } svg .current path, svg .power path { stroke: #543917; }
svg .grid { stroke: #dfe3de; stroke-width: 0.6; } svg .shade { fill: #f3e7a6; }
@media print { body { margin: 0; max-width: none; padding: 0; } .page { break-before: page; } .page:first-of-type { break-before: auto; } article, tr, svg { break-inside: avoid; } h2, h3 { break-after: avoid; } }
`;
