/** CRC-32 with the reflected polynomial 0xEDB88320 (RFC 1952, section 8), a byte at a time. */
const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let sum = byte;
  for (let k = 0; k < 8; k++) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
  return sum;
});

/** Check sum of bytes that follow those of `before`. The nine digits "123456789" give 0xCBF43926. */
export function crc32(bytes: Uint8Array, before = 0): number {
  let sum = before ^ 0xffffffff;
  for (let i = 0; i < bytes.length; i++) sum = TABLE[(sum ^ bytes[i]) & 255] ^ (sum >>> 8);
  return (sum ^ 0xffffffff) >>> 0;
}
