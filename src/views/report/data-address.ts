const PICTURES: readonly string[] = ["image/png", "image/jpeg", "image/svg+xml"];
const MOST_BYTES = 1_000_000;

/** A picture as a data address that a report can carry inside; null where it is no picture a report takes, or too large. */
export async function dataAddress(file: Blob): Promise<string | null> {
  if (!PICTURES.includes(file.type) || file.size > MOST_BYTES) return null;
  const bytes = new Uint8Array(await file.arrayBuffer());
  let text = "";
  for (const byte of bytes) text += String.fromCharCode(byte);
  return `data:${file.type};base64,${btoa(text)}`;
}
