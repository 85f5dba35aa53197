import { createHash } from "node:crypto";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, relative, sep } from "node:path";
import type { Plugin } from "vite";

const SERVICE_WORKER = "service-worker.js";
/** What the service worker's source holds in place of the list; the build chooses the quotes. */
const PLACE = /(["'`])EVENHEAD_FILES\1/;

/** Builds the service worker beside the page and writes into it every file of the page with a mark of their content. */
export function fileListPlugin(): Plugin {
  let folder = "";
  return {
    name: "evenhead-file-list",
    apply: (_config, { command, isSsrBuild }) => command === "build" && isSsrBuild !== true,
    config: () => ({
      publicDir: "public",
      build: {
        rolldownOptions: {
          input: { index: join(import.meta.dirname, "..", "index.html"), "service-worker": join(import.meta.dirname, "service-worker.ts") },
          output: { entryFileNames: ({ name }) => (name === "service-worker" ? SERVICE_WORKER : "assets/[name]-[hash].js") },
        },
      },
    }),
    configResolved(config) {
      folder = join(config.root, config.build.outDir);
    },
    closeBundle() {
      const files = filesUnder(folder).filter((file) => file !== SERVICE_WORKER);
      const mark = createHash("sha256");
      for (const file of files) mark.update(file).update(readFileSync(join(folder, file)));
      const path = join(folder, SERVICE_WORKER);
      const source = readFileSync(path, "utf8");
      if (!PLACE.test(source)) throw new Error(`${SERVICE_WORKER} has no place for the list of files`);
      const list = { version: mark.digest("hex").slice(0, 16), files: ["./", ...files.map((file) => `./${file}`)] };
      writeFileSync(
        path,
        source.replace(PLACE, () => JSON.stringify(list)),
      );
    },
  };
}

const filesUnder = (folder: string): string[] =>
  readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join("/"))
    .sort();
