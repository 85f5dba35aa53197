/** Characters of bytes 128 to 255 in code page 850. Source: the mapping table CP850.TXT of the Unicode Consortium. */
const HIGH =
  "ÇüéâäàåçêëèïîìÄÅÉæÆôöòûùÿÖÜø£Ø×ƒáíóúñÑªº¿®¬½¼¡«»░▒▓│┤ÁÂÀ©╣║╗╝¢¥┐└┴┬├─┼ãÃ╚╔╩╦╠═╬¤ðÐÊËÈıÍÎÏ┘┌█▄¦Ì▀ÓßÔÒõÕµþÞÚÛÙýÝ¯´\u00ad±‗¾¶§÷¸°¨·¹³²■\u00a0";

/** Text of bytes in code page 850, which loggers of the command-line age and instruments with a small display still write. */
export function decodeDosText(bytes: Uint8Array): string {
  let text = "";
  for (const byte of bytes) text += byte < 128 ? String.fromCharCode(byte) : HIGH[byte - 128];
  return text;
}

const isLetter = (byte: number | undefined) => byte !== undefined && ((byte >= 65 && byte <= 90) || (byte >= 97 && byte <= 122));
const APOSTROPHE = 0x92; // of Windows-1252, between letters in French and Italian
const SLASH = 0x2f;
const LOWER_M = 0x6d;

/**
 * Whether bytes that are no UTF-8 are code page 850 rather than Windows-1252: letters with accents stand where the other has quotes and dashes, the
 * degree before C or F and the powers behind m where the other has letters.
 */
export function isDosText(bytes: Uint8Array): boolean {
  let [dos, windows] = [0, 0];
  for (let i = 0; i < bytes.length; i++) {
    const byte = bytes[i];
    if (byte < 128) continue;
    const [before, after] = [bytes[i - 1], bytes[i + 1]];
    const inWord = isLetter(before) && isLetter(after);
    const degreeSide = !isLetter(before) && (after === 0x43 || after === 0x46);
    const powerSide = before === LOWER_M && (after === SLASH || !isLetter(after));
    if (byte < 0xa0 ? inWord && byte !== APOSTROPHE : (byte === 0xf8 && degreeSide) || ((byte === 0xfc || byte === 0xfd) && powerSide))
      dos++;
    else if ((byte >= 0xc0 && inWord) || (byte === 0xb0 && degreeSide) || ((byte === 0xb2 || byte === 0xb3) && powerSide)) windows++;
  }
  return dos > windows;
}
