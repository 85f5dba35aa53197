import { readdir } from "node:fs/promises";
import { dirname, extname, join, relative } from "node:path";

const LOG_ENDINGS: readonly string[] = [".csv", ".tsv", ".txt", ".log", ".dat", ".asc", ".prn", ".zip", ".gz", ".xlsx"];

/** A log of a folder, named by its path from there, with the site file that goes with it. */
export type FoundLog = { readonly name: string; readonly path: string; readonly site: string | null };

/**
 * All logs below a folder, in the order of their names. The site facts of LOG.csv are LOG.site.json beside it, else site.json in its folder,
 * else the one given for all.
 */
export async function findLogs(folder: string, siteOfAll: string | null): Promise<readonly FoundLog[]> {
  const entries = await readdir(folder, { withFileTypes: true, recursive: true });
  const paths = entries.flatMap((entry) => (entry.isFile() ? [join(entry.parentPath, entry.name)] : []));
  const known = new Set(paths);
  const siteOf = (path: string) =>
    [`${path.slice(0, path.length - extname(path).length)}.site.json`, join(dirname(path), "site.json")].find((site) => known.has(site)) ??
    siteOfAll;
  return paths
    .filter((path) => LOG_ENDINGS.includes(extname(path).toLowerCase()))
    .sort()
    .map((path) => ({ name: relative(folder, path), path, site: siteOf(path) }));
}
