// The changes: the instrumenter puts every one of them into the code behind a switch, so that one text holds them all.
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const quiet = { isDebugEnabled: () => false, debug() {}, info() {}, warn: console.error, error: console.error };

async function instrumented(work, files) {
  const require = createRequire(join(work, "package.json"));
  const load = (name) => import(pathToFileURL(require.resolve(name)).href);
  const { createInstrumenter } = await load("@stryker-mutator/instrumenter");
  const { createInjector } = await load("typed-inject");
  const { commonTokens } = await load("@stryker-mutator/api/plugin");
  const instrumenter = createInjector().provideValue(commonTokens.logger, quiet).injectFunction(createInstrumenter);
  // Sentences are judged by reading: texts are left alone.
  return instrumenter.instrument(files, { plugins: null, excludedMutations: ["StringLiteral"], ignorers: [], noHeader: true });
}

/** What stood where a change is, and a key that holds as long as the file is the same. */
function described(top, { id, fileName, location: { start, end }, mutatorName: kind, replacement }, text) {
  const path = fileName.slice(top.length + 1);
  const lines = text.split("\n").slice(start.line, end.line + 1);
  const stood = lines.length === 1 ? lines[0].slice(start.column, end.column) : `${lines[0].slice(start.column)} ...`;
  const place = `${start.line + 1}:${start.column + 1}`;
  const file = createHash("sha256").update(text).digest("hex").slice(0, 16);
  const key = [path, file, place, end.line, end.column, kind, replacement].join(" ");
  return { id, path, line: start.line + 1, place, kind, stood, replacement, key };
}

/**
 * @param work folder that the tool is installed in
 * @param paths files to change, from the top of the project
 * @returns the texts with all switches in, by absolute path, and the changes
 */
export async function changesOf(top, work, paths) {
  const files = paths.map((path) => ({ name: join(top, path), mutate: true, content: readFileSync(join(top, path), "utf8") }));
  const before = new Map(files.map(({ name, content }) => [name, content]));
  const { files: switched, mutants } = await instrumented(work, files);
  return {
    texts: new Map(switched.map(({ name, content }) => [name, content])),
    changes: mutants.filter(({ status }) => status !== "Ignored").map((one) => described(top, one, before.get(one.fileName))),
  };
}
