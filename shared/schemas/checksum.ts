const TABLE = new Uint32Array(256).map((_, n) => {
  let c = n;
  for (let bit = 0; bit < 8; bit++) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c;
});

/**
 * CRC-32 of a text's UTF-8 bytes as eight hexadecimal digits: tells a damaged part of a file from a sound one, no more than that.
 * Source: ISO 3309 / ITU-T V.42, reflected polynomial EDB88320; "123456789" gives cbf43926.
 */
export function checksum(text: string): string {
  let c = 0xffffffff;
  const feed = (byte: number) => {
    c = TABLE[(c ^ byte) & 0xff] ^ (c >>> 8);
  };
  for (const character of text) {
    const code = character.codePointAt(0) ?? 0;
    if (code < 0x80) feed(code);
    else if (code < 0x800) [0xc0 | (code >> 6), 0x80 | (code & 63)].forEach(feed);
    else if (code < 0x10000) [0xe0 | (code >> 12), 0x80 | ((code >> 6) & 63), 0x80 | (code & 63)].forEach(feed);
    else [0xf0 | (code >> 18), 0x80 | ((code >> 12) & 63), 0x80 | ((code >> 6) & 63), 0x80 | (code & 63)].forEach(feed);
  }
  return ((c ^ 0xffffffff) >>> 0).toString(16).padStart(8, "0");
}
