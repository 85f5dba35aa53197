const END = 0x06054b50;
const ENTRY = 0x02014b50;
const LONGEST_COMMENT = 65_535;

/**
 * Check sums of the entries in the order of an archive's directory (PKWARE APPNOTE 6.3.3, 4.3.12 and 4.3.16): the unpacker does not look at them. Empty
 * where the directory is of another kind (ZIP64).
 */
export function zipSums(bytes: Uint8Array): readonly number[] {
  const sums: number[] = [];
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  const end = endOfDirectory(view);
  if (end < 0) return sums;
  let at = view.getUint32(end + 16, true);
  for (let left = view.getUint16(end + 10, true); left > 0 && at + 46 <= end && view.getUint32(at, true) === ENTRY; left--) {
    sums.push(view.getUint32(at + 16, true));
    at += 46 + view.getUint16(at + 28, true) + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  return sums;
}

function endOfDirectory(view: DataView): number {
  for (let at = view.byteLength - 22; at >= Math.max(0, view.byteLength - 22 - LONGEST_COMMENT); at--)
    if (view.getUint32(at, true) === END) return at;
  return -1;
}
