import type { LogRecord } from "../../shared/record/log-record";

/** The browser digests whole buffers only: above this a fingerprint would cost as much memory again. */
const MOST_BYTES = 300e6;

/** SHA-256 of a file as hexadecimal digits; null where it is too large or cannot be read. */
export async function fingerprintOf(blob: Blob): Promise<string | null> {
  if (blob.size > MOST_BYTES) return null;
  return blob
    .arrayBuffer()
    .then(sha256)
    .catch(() => null);
}

export async function sha256(bytes: BufferSource): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** @param prints by the name of the file */
export const withFingerprints = (record: LogRecord, prints: ReadonlyMap<string, string | null>): LogRecord => ({
  ...record,
  files: record.files.map((file) => ({ ...file, sha256: file.sha256 ?? prints.get(file.name) ?? null })),
});
