import { createHash } from "node:crypto";
import { expect, test } from "vitest";
import { logFile } from "../../../src/worker/log-file";

const MIB = 1024 * 1024;
/** Bytes of no short period, so that a piece out of its place is noticed. */
const bytesOf = (length: number): Uint8Array<ArrayBuffer> => Uint8Array.from({ length }, (_, i) => (i * 7 + (i >> 8) * 13) & 255);
const sha256 = (bytes: Uint8Array) => createHash("sha256").update(bytes).digest("hex");

async function readAll(pieces: AsyncIterable<Uint8Array>): Promise<Uint8Array> {
  const read: Uint8Array[] = [];
  for await (const piece of pieces) read.push(piece);
  return Buffer.concat(read);
}

/** A blob that notes which bytes are fetched from it. */
function noting(bytes: Uint8Array<ArrayBuffer>) {
  const fetched: (readonly [number, number])[] = [];
  const blob = {
    size: bytes.length,
    arrayBuffer: async () => {
      fetched.push([0, bytes.length]);
      return bytes.slice().buffer;
    },
    slice: (from: number, to: number) => ({
      arrayBuffer: async () => {
        fetched.push([from, Math.min(to, bytes.length)]);
        return bytes.slice(from, to).buffer;
      },
    }),
  };
  return { fetched, blob: blob as unknown as Blob };
}

test.each([0, 1, MIB, MIB + 1, 9 * MIB, 20 * MIB + 17])(
  "a file of %i bytes comes whole and in order, and is fetched once for rows and fingerprint",
  async (length) => {
    const bytes = bytesOf(length);
    const { blob, fetched } = noting(bytes);
    const file = logFile({ name: "log.csv", blob });
    expect(Buffer.compare(await readAll(file.open()), bytes)).toBe(0);
    expect(fetched.reduce((sum, [from, to]) => sum + to - from, 0)).toBe(length);
    expect(await file.fingerprint()).toBe(sha256(bytes));
    expect(Buffer.compare(await readAll(file.open()), bytes)).toBe(0);
  },
);

test("a file above what is held whole comes in order too, and has its fingerprint", async () => {
  const bytes = bytesOf(65 * MIB);
  const file = logFile({ name: "log.csv", blob: new Blob([bytes]) });
  expect(Buffer.compare(await readAll(file.open()), bytes)).toBe(0);
  expect(await file.fingerprint()).toBe(sha256(bytes));
});

test("a file that fails while it is fetched fails in its turn, and has no fingerprint", async () => {
  const gone = () => Promise.reject(new Error("gone"));
  const blob = { size: 30 * MIB, arrayBuffer: gone, slice: () => ({ arrayBuffer: gone }) } as unknown as Blob;
  const file = logFile({ name: "log.csv", blob });
  await expect(readAll(file.open())).rejects.toThrow("gone");
  expect(await file.fingerprint()).toBeNull();
});
