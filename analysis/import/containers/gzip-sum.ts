import { crc32 } from "./crc-32";

/** The check sum of what a gzip file holds against the one behind each of its members; the unpacker itself does not look. */
export class GzipSum {
  private sum = 0;
  private tail = new Uint8Array(0);
  private read = 0;
  private isWrong = false;

  /** Packed bytes, before they are unpacked. */
  packed(piece: Uint8Array): void {
    const before = this.tail.subarray(-8);
    const kept = new Uint8Array(before.length + piece.length);
    kept.set(before);
    kept.set(piece, before.length);
    this.tail = kept;
    this.read += piece.length;
  }

  add(data: Uint8Array): void {
    this.sum = crc32(data, this.sum);
  }

  /** Another member begins at this place of the file. */
  member(at: number): void {
    this.compare(this.tail.length - (this.read - at));
    this.sum = 0;
  }

  /** Whether all members hold what they say; the file is over. */
  agrees(): boolean {
    this.compare(this.tail.length);
    return !this.isWrong;
  }

  /** @param end where a member ends in the bytes kept: its sum and its length are the last eight of it (RFC 1952, section 2.3) */
  private compare(end: number): void {
    if (end < 8) return;
    const told = new DataView(this.tail.buffer, end - 8, 4).getUint32(0, true);
    if (told !== this.sum) this.isWrong = true;
  }
}
