// One script for each test file, with all that it imports: to load it anew gives every module fresh, so that no change leaves a trace for the next.
import { dirname } from "node:path";
import { pathToFileURL } from "node:url";
import { rolldown } from "rolldown";

/** Packages are loaded once: no change is made in them. */
export const packageNames = new Set();
const isPackage = (id) => !/^[./\0]|^node:/.test(id);

/** @returns the script of a test file; it asks `packages` for its packages and `require` for what Node brings */
export async function bundleTest(path, texts) {
  const build = await rolldown({
    input: path,
    platform: "node",
    external: /^node:/,
    logLevel: "warn",
    plugins: [
      {
        name: "as-they-lie",
        resolveId: (id) => (isPackage(id) ? { id: `\0package:${id}` } : null),
        async load(id) {
          if (id.startsWith("\0package:")) return packageModule(id.slice("\0package:".length));
          return texts.has(id) ? { code: texts.get(id), moduleType: id.endsWith("x") ? "tsx" : "ts" } : null;
        },
        transform(code, id) {
          if (!code.includes("import.meta")) return null;
          return code
            .replaceAll("import.meta.dirname", JSON.stringify(dirname(id)))
            .replaceAll("import.meta.url", JSON.stringify(pathToFileURL(id).href));
        },
      },
    ],
  });
  const { output } = await build.generate({ format: "cjs", codeSplitting: false, minify: false });
  await build.close();
  return output[0].code;
}

async function packageModule(name) {
  if (name !== "vitest") packageNames.add(name);
  const source = `packages[${JSON.stringify(name)}]`;
  if (name === "vitest") return `export const { test, it, describe, expect } = ${source};`;
  const names = Object.keys(await import(name)).filter((key) => key !== "default" && /^[\p{L}_$][\p{L}\d_$]*$/u.test(key));
  return [
    `const all = ${source};`,
    "export default all.default;",
    ...names.map((key) => `const own_${key} = all.${key}; export { own_${key} as ${key} };`),
  ].join("\n");
}
