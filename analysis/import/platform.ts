/** The text coders every browser and Node share; `lib` without the DOM does not name them. */
type Decoder = { decode(bytes?: Uint8Array, options?: { stream?: boolean }): string };
type Platform = {
  readonly TextDecoder: new (label: string, options?: { fatal?: boolean; ignoreBOM?: boolean }) => Decoder;
  readonly TextEncoder: new () => { encode(text: string): Uint8Array };
};
const platform = globalThis as unknown as Platform;

/** A decoder by its standard label (WHATWG Encoding). Fatal: throws TypeError on bytes that are not that encoding. */
export const textDecoder = (label: string, fatal = false): Decoder => new platform.TextDecoder(label, { fatal, ignoreBOM: true });

const encoder = new platform.TextEncoder();
export const utf8Bytes = (text: string): Uint8Array => encoder.encode(text);
