import type { LogRecord } from "../../shared/record/log-record";
import type { PickedFile } from "./messages";

/** The browser digests whole buffers only: above this a fingerprint would cost as much memory again. */
const MOST_BYTES = 300e6;

/** SHA-256 of each file by its name, as hexadecimal digits; files too large are left out. */
export async function fingerprintsOf(files: readonly PickedFile[]): Promise<ReadonlyMap<string, string>> {
  const small = files.filter(({ blob }) => blob.size <= MOST_BYTES);
  const prints = await Promise.all(small.map(async ({ name, blob }) => [name, await sha256(blob).catch(() => null)] as const));
  return new Map(prints.flatMap(([name, print]) => (print === null ? [] : [[name, print] as const])));
}

async function sha256(blob: Blob): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", await blob.arrayBuffer()));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

export const withFingerprints = (record: LogRecord, prints: ReadonlyMap<string, string>): LogRecord => ({
  ...record,
  files: record.files.map((file) => ({ ...file, sha256: file.sha256 ?? prints.get(file.name) ?? null })),
});
