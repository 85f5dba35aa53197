import { randomUUID } from "node:crypto";
import { open, rename, rm, writeFile } from "node:fs/promises";
import { basename } from "node:path";
import { NOT_DONE, NOT_WRITTEN } from "../../shared/wording/usage";

/** A file could not be written; what stood under its name before stands there still. */
export class WriteError extends Error {
  override readonly name = "WriteError";
  constructor(
    readonly path: string,
    cause: unknown,
  ) {
    super(NOT_DONE.notWritten(basename(path), whyNot(cause)), { cause });
  }
}

function whyNot(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  return ("code" in error ? NOT_WRITTEN.get(error.code) : undefined) ?? error.message;
}

/** Text or bytes, whole or piece after piece. */
export type Content = string | Uint8Array | Iterable<string> | AsyncIterable<string>;

/** What writing asks of a disk: a test puts one in that is full. */
export type Disk = {
  /** Writes all and has it on the disk, not only on its way there, before it answers. */
  write(path: string, content: Content): Promise<void>;
  rename(from: string, to: string): Promise<void>;
  remove(path: string): Promise<void>;
};

const THIS_MACHINE: Disk = {
  async write(path, content) {
    const file = await open(path, "wx");
    try {
      await writeFile(file, content);
      await file.sync();
    } finally {
      await file.close();
    }
  },
  rename,
  remove: (path) => rm(path, { force: true }),
};

/**
 * Writes a file beside its place and renames it, so that neither a crash nor a full disk leaves half a file under the name.
 * @throws WriteError
 */
export async function writeWhole(path: string, content: Content, disk: Disk = THIS_MACHINE): Promise<void> {
  const beside = `${path}.${randomUUID().slice(0, 8)}.part`;
  try {
    await disk.write(beside, content);
    await disk.rename(beside, path);
  } catch (error) {
    await disk.remove(beside).catch(() => {});
    throw new WriteError(path, error);
  }
}
