import { describe, expect, test } from "vitest";
import { decodeText, findEncoding, plainBytes } from "../../../analysis/import/encoding";

const bytes = (...values: number[]) => Uint8Array.from(values);
const utf8 = (text: string) => new TextEncoder().encode(text);

/** Byte-order marks: Unicode 15.0, section 23.8, table 23-5. */
describe("the encoding of a file", () => {
  test.each([
    ["mark of UTF-8", bytes(0xef, 0xbb, 0xbf, 65), { encoding: "utf-8", skip: 3 }],
    ["mark of UTF-16, little end first", bytes(0xff, 0xfe, 65, 0), { encoding: "utf-16le", skip: 2 }],
    ["mark of UTF-16, big end first", bytes(0xfe, 0xff, 0, 65), { encoding: "utf-16be", skip: 2 }],
    ["zero bytes at odd places", bytes(65, 0, 66, 0, 10, 0), { encoding: "utf-16le", skip: 0 }],
    ["zero bytes at even places", bytes(0, 65, 0, 66, 0, 10), { encoding: "utf-16be", skip: 0 }],
    ["well-formed UTF-8", utf8("20 °C"), { encoding: "utf-8", skip: 0 }],
    ["a degree sign by itself", bytes(50, 48, 32, 0xb0, 67), { encoding: "windows-1252", skip: 0 }],
    ["a character cut by the end of the head", utf8("20 °").slice(0, 4), { encoding: "utf-8", skip: 0 }],
  ])("%s", (_, head, reading) => {
    expect(findEncoding(head)).toEqual(reading);
  });

  test("a degree sign late in a file of ASCII is still a degree sign", () => {
    expect(decodeText(bytes(50, 48, 0xb0), "utf-8")).toBe("20°");
  });
});

test.each([1, 2, 3, 5])("characters cut by chunks of %i bytes come out whole", async (size) => {
  const text = "Durchfluß m³/h °C 𝄞\n";
  const wide = Uint8Array.from([
    0xff,
    0xfe,
    ...[...Array(text.length).keys()].flatMap((i) => [text.charCodeAt(i) & 255, text.charCodeAt(i) >> 8]),
  ]);
  async function* chunks() {
    for (let at = 0; at < wide.length; at += size) yield wide.slice(at, at + size);
  }
  const parts: number[] = [];
  for await (const part of plainBytes(chunks(), { encoding: "utf-16le", skip: 2 })) parts.push(...part);
  expect(new TextDecoder().decode(Uint8Array.from(parts))).toBe(text);
});
