import { type OpenedFile, readRoundFile } from "./round-entry";

/** Files that may hold visits or findings; the rest of a folder (logs, pictures) is passed over. */
const mayHoldVisits = ({ name }: File): boolean => /\.jsonl?$/i.test(name);
/** So many at once: thousands of visit files together would not fit into memory. */
const AT_ONCE = 16;

/**
 * Reads the files of a folder a few at a time, so that the page stays usable.
 * @param onProgress called with how many of how many were read
 */
export async function readRoundFiles(
  files: readonly File[],
  onProgress: (done: number, all: number) => void,
): Promise<readonly OpenedFile[]> {
  const wanted = files.filter(mayHoldVisits);
  const opened: OpenedFile[] = [];
  for (let from = 0; from < wanted.length; from += AT_ONCE) {
    const some = wanted.slice(from, from + AT_ONCE);
    opened.push(...(await Promise.all(some.map(async (file) => readRoundFile(pathOf(file), await textOf(file), file)))));
    onProgress(opened.length, wanted.length);
    // Lets the page draw and answer between two lots.
    await new Promise((next) => setTimeout(next));
  }
  return opened;
}

const pathOf = (file: File): string => file.webkitRelativePath || file.name;
/** A file that went away in the meantime reads as empty, and is refused by name. */
const textOf = (file: File): Promise<string> => file.text().catch(() => "");
