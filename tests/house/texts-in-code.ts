import { parseAst } from "vite";
import { sourceFiles } from "./source-files";

/** A text in the code: `{}` stands for what is put into it; `isShown` where it stands between tags. */
export type CodeText = { readonly path: string; readonly line: number; readonly text: string; readonly isShown: boolean };

type Node = { readonly type: string; readonly start: number; readonly [key: string]: unknown };
const isNode = (value: unknown): value is Node => typeof value === "object" && value !== null && "type" in value;

/** What a caller's mistake says goes to a developer, by the house's own habit of errors. */
const DEVELOPERS_ERRORS = ["Error", "RangeError", "TypeError"];
/** Attributes of markup that are no text for people: names of styles, shapes and ways. */
const WORDLESS_ATTRIBUTES = ["className", "d", "transform", "viewBox", "style", "href", "rel"];

const isWordless = (node: Node): boolean =>
  node.type.startsWith("TS") && node.type.includes("Literal")
    ? true
    : node.type.startsWith("Import") ||
      (node.type === "NewExpression" && isNode(node.callee) && DEVELOPERS_ERRORS.includes(String(node.callee.name))) ||
      (node.type === "JSXAttribute" && isNode(node.name) && WORDLESS_ATTRIBUTES.includes(String(node.name.name)));

type Quasi = { readonly value: { readonly cooked: string } };

function textOf(node: Node): string | null {
  if (node.type === "JSXText") return String(node.value);
  if (node.type === "Literal" && typeof node.value === "string") return node.value;
  return node.type === "TemplateLiteral" ? (node.quasis as readonly Quasi[]).map(({ value }) => value.cooked).join("{}") : null;
}

/** Texts of a piece of code, but for types, names of modules and what is thrown at developers. */
export function textsIn(code: string, path: string): readonly CodeText[] {
  const found: CodeText[] = [];
  const walk = (value: unknown): void => {
    if (Array.isArray(value)) for (const inner of value) walk(inner);
    if (!isNode(value) || isWordless(value)) return;
    const text = textOf(value);
    if (text !== null) {
      const line = code.slice(0, value.start).split("\n").length;
      found.push({ path, line, text, isShown: value.type === "JSXText" });
    }
    for (const inner of Object.values(value)) walk(inner);
  };
  walk(parseAst(code, { lang: path.endsWith("x") ? "tsx" : "ts" }));
  return found;
}

export const textsOf = (room: string): readonly CodeText[] => sourceFiles(room).flatMap(({ path, text }) => textsIn(text, path));
