/** Bytes compared at a time. */
const WORD = 4;
const WORDS = 6;

/** A stretch of 4 to 24 bytes, compared four at a time with others: byte by byte the comparing takes longer than reading a stamp does. */
export class KeptBytes {
  /** 0 where nothing is kept. */
  length = 0;
  readonly words = new Int32Array(WORDS);
  /** Where each word begins; the last ones lie over each other, so that every length is compared alike. */
  readonly places = new Int32Array(WORDS);
  private source: Uint8Array | null = null;
  private view: DataView = new DataView(new ArrayBuffer(0));

  /** Keeps bytes [from, to), or nothing where these are too few or too many. */
  keep(bytes: Uint8Array, from: number, to: number): void {
    this.length = to - from >= WORD && to - from <= WORD * WORDS ? to - from : 0;
    if (this.length === 0) return;
    const view = this.viewOf(bytes);
    for (let i = 0; i < WORDS; i++) {
      this.places[i] = Math.min(i * WORD, this.length - WORD);
      this.words[i] = view.getInt32(from + this.places[i], true);
    }
  }

  /** Whether the bytes from `at` on are those kept. */
  isAt(bytes: Uint8Array, at: number): boolean {
    const { words, places, length } = this;
    if (length === 0 || at + length > bytes.length) return false;
    const view = this.viewOf(bytes);
    for (let i = 0; i < WORDS; i++) if (view.getInt32(at + places[i], true) !== words[i]) return false;
    return true;
  }

  viewOf(bytes: Uint8Array): DataView {
    if (bytes !== this.source) {
      this.source = bytes;
      this.view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
    }
    return this.view;
  }
}
