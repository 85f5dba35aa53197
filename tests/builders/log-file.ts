import type { LogFile } from "../../analysis/import/import-log";

/** A file for the importer out of text or bytes, given out in chunks of so many bytes. */
export function logFile(content: string | Uint8Array, name = "log.csv", chunk = 65_536): LogFile {
  const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
  return {
    name,
    bytes: bytes.length,
    sha256: null,
    async *open() {
      for (let at = 0; at < bytes.length; at += chunk) yield bytes.slice(at, at + chunk);
    },
  };
}
