import { strToU8, zipSync } from "fflate";

const xml = (body: string) => strToU8(`<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n${body}`);
const column = (i: number) => String.fromCharCode(65 + i);

/** A small workbook after ISO/IEC 29500: numbers as numbers, texts inline, dates as day numbers in style 1. One sheet a name. */
export function workbook(sheets: Readonly<Record<string, readonly (readonly (string | number | Date | null)[])[]>>): Uint8Array {
  const names = Object.keys(sheets);
  const cell = (value: string | number | Date | null, ref: string) => {
    if (value === null) return "";
    if (value instanceof Date) return `<c r="${ref}" s="1"><v>${value.getTime() / 86_400_000 + 25_569}</v></c>`;
    return typeof value === "number" ? `<c r="${ref}"><v>${value}</v></c>` : `<c r="${ref}" t="inlineStr"><is><t>${value}</t></is></c>`;
  };
  const sheet = (rows: readonly (readonly (string | number | Date | null)[])[]) =>
    xml(
      `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>${rows
        .map((cells, r) => `<row r="${r + 1}">${cells.map((value, c) => cell(value, `${column(c)}${r + 1}`)).join("")}</row>`)
        .join("")}</sheetData></worksheet>`,
    );
  const rel = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
  const main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
  return zipSync({
    "[Content_Types].xml": xml(
      `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/></Types>`,
    ),
    "_rels/.rels": xml(
      `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r0" Type="${rel}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    ),
    "xl/workbook.xml": xml(
      `<workbook xmlns="${main}" xmlns:r="${rel}"><sheets>${names.map((name, i) => `<sheet name="${name}" sheetId="${i + 1}" r:id="r${i + 1}"/>`).join("")}</sheets></workbook>`,
    ),
    "xl/_rels/workbook.xml.rels": xml(
      `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${names.map((_, i) => `<Relationship Id="r${i + 1}" Type="${rel}/worksheet" Target="worksheets/sheet${i + 1}.xml"/>`).join("")}<Relationship Id="rs" Type="${rel}/styles" Target="styles.xml"/></Relationships>`,
    ),
    "xl/styles.xml": xml(
      `<styleSheet xmlns="${main}"><numFmts count="1"><numFmt numFmtId="164" formatCode="yyyy-mm-dd hh:mm:ss"/></numFmts><cellXfs count="2"><xf numFmtId="0"/><xf numFmtId="164" applyNumberFormat="1"/></cellXfs></styleSheet>`,
    ),
    ...Object.fromEntries(names.map((name, i) => [`xl/worksheets/sheet${i + 1}.xml`, sheet(sheets[name])])),
  });
}
