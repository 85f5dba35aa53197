import type { KeptLog } from "../../shared/schemas/visit-parts";

type NamedBlob = { readonly name: string; readonly blob: Blob };

/** Files of a log into a visit file: gzip, then base64. */
export async function packLog(files: readonly NamedBlob[], sha256: readonly (string | null)[]): Promise<KeptLog> {
  const packed = files.map(async ({ name, blob }, i) => ({
    name,
    bytes: blob.size,
    sha256: sha256[i] ?? null,
    content: toBase64(await throughStream(blob, new CompressionStream("gzip"))),
  }));
  return { files: await Promise.all(packed) };
}

/** And out of it again. @throws where a file's content is damaged */
export async function unpackLog(log: KeptLog): Promise<readonly NamedBlob[]> {
  return Promise.all(
    log.files.map(async ({ name, bytes, content }) => {
      const plain = await unpacked(fromBase64(content), bytes);
      if (plain === null) throw new RangeError(`unpackLog: ${name} has not ${bytes} bytes`);
      return { name, blob: new Blob([...plain], { type: "text/plain" }) };
    }),
  );
}

/** What a gzip file holds, in pieces; null where that is not so many bytes. Unpacking stops there: content that lies about its size cannot fill the memory. */
async function unpacked(packed: Uint8Array<ArrayBuffer>, bytes: number): Promise<readonly Uint8Array<ArrayBuffer>[] | null> {
  const reader = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip")).getReader();
  const pieces: Uint8Array<ArrayBuffer>[] = [];
  let count = 0;
  for (let next = await reader.read(); !next.done; next = await reader.read()) {
    count += next.value.length;
    if (count > bytes) {
      await reader.cancel();
      return null;
    }
    pieces.push(next.value);
  }
  return count === bytes ? pieces : null;
}

const throughStream = async (blob: Blob, transform: CompressionStream): Promise<Uint8Array<ArrayBuffer>> =>
  new Uint8Array(await new Response(blob.stream().pipeThrough(transform)).arrayBuffer());

/** A call with more arguments than this may overflow the stack. */
const CHUNK = 0x8000;

export function toBase64(bytes: Uint8Array): string {
  const pieces: string[] = [];
  for (let at = 0; at < bytes.length; at += CHUNK) pieces.push(String.fromCharCode(...bytes.subarray(at, at + CHUNK)));
  return btoa(pieces.join(""));
}

/** @throws where the text is not base64 */
export function fromBase64(text: string): Uint8Array<ArrayBuffer> {
  const binary = atob(text);
  const bytes = new Uint8Array(binary.length);
  for (let i = 0; i < binary.length; i++) bytes[i] = binary.charCodeAt(i);
  return bytes;
}
