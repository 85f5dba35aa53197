import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";

export const TOP = join(dirname(fileURLToPath(import.meta.url)), "..", "..");

export type SourceFile = { readonly path: string; readonly text: string; readonly imports: readonly string[] };

/** Every TypeScript file of a room, with what it imports; own imports as paths from the top, packages by name. */
export function sourceFiles(room: string): readonly SourceFile[] {
  return readdirSync(join(TOP, room), { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
    .map((entry) => readSource(join(entry.parentPath, entry.name)));
}

function readSource(full: string): SourceFile {
  const text = readFileSync(full, "utf8");
  const named = [...text.matchAll(/(?:from|import)\s*\(?\s*"([^"]+)"/g)].map((match) => match[1]);
  return {
    path: relative(TOP, full),
    text,
    imports: named.map((name) => (name.startsWith(".") ? relative(TOP, join(dirname(full), name)) : name)),
  };
}
