import { type OpenedFile, readRoundFile, readRoundLines } from "./round-entry";

/** Files that may hold visits or findings; the rest of a folder (logs, pictures) is passed over. */
const mayHoldVisits = ({ name }: File): boolean => /\.jsonl?$/i.test(name);
/** So many at once: thousands of visit files together would not fit into memory. */
const AT_ONCE = 16;
/** Bytes of a long file that are read in one go. */
const PIECE = 4 << 20;

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
    opened.push(...(await Promise.all(some.map(readOne))));
    onProgress(opened.length, wanted.length);
    // Lets the page draw and answer between two lots.
    await new Promise((next) => setTimeout(next));
  }
  return opened;
}

/** The lines of a fleet may be longer together than any text can be: they are read one after the other. */
const readOne = async (file: File): Promise<OpenedFile> =>
  /\.jsonl$/i.test(file.name) ? readRoundLines(pathOf(file), linesOf(file)) : readRoundFile(pathOf(file), await textOf(file), file);

/** The lines of a file, without their ends. A file that goes away in the meantime ends there. */
export async function* linesOf(file: Blob): AsyncGenerator<string> {
  const decoder = new TextDecoder();
  let rest = "";
  for (let at = 0; at < file.size; at += PIECE) {
    const bytes = await file
      .slice(at, at + PIECE)
      .arrayBuffer()
      .catch(() => null);
    if (bytes === null) return;
    const lines = (rest + decoder.decode(bytes, { stream: true })).split("\n");
    rest = lines.pop() ?? "";
    yield* lines;
    // Lets the page draw and answer between two pieces.
    await new Promise((next) => setTimeout(next));
  }
  if (rest !== "") yield rest;
}

const pathOf = (file: File): string => file.webkitRelativePath || file.name;
/** A file that went away in the meantime reads as empty, and is refused by name. */
const textOf = (file: File): Promise<string> => file.text().catch(() => "");
