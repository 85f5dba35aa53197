import type { Dirent } from "node:fs";
import { readdir, stat } from "node:fs/promises";
import { dirname, extname, join, relative, resolve } from "node:path";

/** The list of columns that a bulk run writes beside its tables. */
export const COLUMNS_FILE = "columns.txt";

export const LOG_ENDINGS: readonly string[] = [".csv", ".tsv", ".txt", ".log", ".dat", ".asc", ".prn", ".zip", ".gz", ".xlsx"];

/** A log of a folder, named by its path from there, with the site file that goes with it. */
export type FoundLog = { readonly name: string; readonly path: string; readonly site: string | null; readonly bytes: number };

const sizeOf = (path: string): Promise<number> =>
  stat(path).then(
    ({ size }) => size,
    () => 0,
  );

/** A file, or a link to one. A link that leads nowhere is a log that cannot be opened: left out in silence it would be missed by nobody. */
async function isLog(entry: Dirent): Promise<boolean> {
  if (!entry.isSymbolicLink()) return entry.isFile();
  const target = await stat(join(entry.parentPath, entry.name)).catch(() => null);
  return target === null || target.isFile();
}

/**
 * All logs below a folder, in the order of their names. The site facts of LOG.csv are LOG.site.json beside it, else site.json in its folder,
 * else the one given for all. What an earlier run wrote in the folder is no log.
 */
export async function findLogs(folder: string, siteOfAll: string | null, out: string): Promise<readonly FoundLog[]> {
  const entries = await readdir(folder, { withFileTypes: true, recursive: true });
  const own = resolve(out, COLUMNS_FILE);
  const found = await Promise.all(entries.map(async (entry) => ((await isLog(entry)) ? [join(entry.parentPath, entry.name)] : [])));
  const paths = found.flat().filter((path) => resolve(path) !== own);
  const known = new Set(paths);
  const siteOf = (path: string) =>
    [`${path.slice(0, path.length - extname(path).length)}.site.json`, join(dirname(path), "site.json")].find((site) => known.has(site)) ??
    siteOfAll;
  const logs = paths.filter((path) => LOG_ENDINGS.includes(extname(path).toLowerCase())).sort();
  return Promise.all(logs.map(async (path) => ({ name: relative(folder, path), path, site: siteOf(path), bytes: await sizeOf(path) })));
}
