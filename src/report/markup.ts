/** Text that is already HTML: only `markup` makes it, so that nothing from a file reaches a page unescaped. */
export type Markup = { readonly html: string };

const ESCAPES: ReadonlyMap<string, string> = new Map([
  ["&", "&amp;"],
  ["<", "&lt;"],
  [">", "&gt;"],
  ['"', "&quot;"],
  ["'", "&#39;"],
]);

export const escapeText = (text: string): string => text.replace(/[&<>"']/g, (character) => ESCAPES.get(character) ?? character);

type Part = string | number | Markup | null | readonly (Markup | null)[];

const write = (part: Part): string => {
  if (part === null) return "";
  if (typeof part === "string") return escapeText(part);
  if (typeof part === "number") return String(part);
  return "html" in part ? part.html : part.map(write).join("");
};

/** A template whose values are escaped; Markup and lists of it go in as they are, null as nothing. */
export function markup(texts: TemplateStringsArray, ...parts: readonly Part[]): Markup {
  return { html: texts.map((text, i) => text + (i < parts.length ? write(parts[i]) : "")).join("") };
}

export const NOTHING: Markup = { html: "" };

/** The head of a table, a title a column. */
export const headRow = (titles: readonly string[]): Markup =>
  markup`<thead><tr>${titles.map((title) => markup`<th scope="col">${title}</th>`)}</tr></thead>`;
