import { gunzipSync } from "node:zlib";
import { expect, test } from "vitest";
import { fromBase64, packLog, toBase64, unpackLog } from "../../../src/storage/log-packing";

const bytes = (n: number) => Uint8Array.from({ length: n }, (_, i) => (i * 31 + (i >> 8)) % 256);

test("base64 agrees with the platform's own", () => {
  for (const n of [0, 1, 2, 3, 0x8000, 0x8001, 100_003]) {
    expect(toBase64(bytes(n))).toBe(Buffer.from(bytes(n)).toString("base64"));
    expect(fromBase64(toBase64(bytes(n)))).toEqual(bytes(n));
  }
});
test("a log goes into a visit file and out again byte for byte", async () => {
  const packed = await packLog([{ name: "log.csv", blob: new Blob([bytes(100_003)]) }], ["ab"]);
  expect(packed.files[0]).toMatchObject({ name: "log.csv", bytes: 100_003, sha256: "ab" });
  expect(new Uint8Array(gunzipSync(Buffer.from(packed.files[0].content, "base64")))).toEqual(bytes(100_003)); // zlib, another implementation
  const [file] = await unpackLog(packed);
  expect(new Uint8Array(await file.blob.arrayBuffer())).toEqual(bytes(100_003));
});
test("damaged content is refused, never half read", async () => {
  const packed = await packLog([{ name: "log.csv", blob: new Blob([bytes(5000)]) }], [null]);
  const [file] = packed.files;
  const cut = { files: [{ ...file, content: file.content.slice(0, (file.content.length >> 3) * 4) }] };
  await expect(unpackLog(cut)).rejects.toThrow();
  await expect(unpackLog({ files: [{ ...file, content: "not base64 !" }] })).rejects.toThrow();
  await expect(unpackLog({ files: [{ ...file, bytes: 4999 }] })).rejects.toThrow("has not 4999 bytes");
  await expect(unpackLog({ files: [{ ...file, bytes: 5001 }] })).rejects.toThrow("has not 5001 bytes");
});
