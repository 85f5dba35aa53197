import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type DateOrder, stampSeconds } from "../../../../analysis/import/clock/stamp";
import { readStamp } from "../../../../analysis/import/clock/stamp-text";

const instant = (text: string, order: DateOrder = "dmy") => {
  const stamp = readStamp(text, order);
  if (stamp === null) return null;
  const offset = Number.isNaN(stamp.offset) ? 0 : stamp.offset;
  return Number.isNaN(stamp.days)
    ? `time ${stamp.seconds - offset}`
    : new Date(Math.round((stampSeconds(stamp) - offset) * 1000)).toISOString();
};

describe("ISO 8601 forms", () => {
  // forms and equivalences of ISO 8601-1:2019, 5.2.2 to 5.4.2 (calendar, ordinal, week dates; times; offsets; fractions)
  test.each([
    ["1985-04-12T23:20:50Z", "1985-04-12T23:20:50.000Z"],
    ["19850412T232050Z", "1985-04-12T23:20:50.000Z"],
    ["1985-04-12 23:20:50", "1985-04-12T23:20:50.000Z"],
    ["1985-04-12T23:20", "1985-04-12T23:20:00.000Z"],
    ["1985-04-12T23", "1985-04-12T23:00:00.000Z"],
    ["1985-102T10:15:30", "1985-04-12T10:15:30.000Z"],
    ["1985-W15-5T10:15:30", "1985-04-12T10:15:30.000Z"],
    ["1985W155T101530", "1985-04-12T10:15:30.000Z"],
    ["2009-W01-1", "2008-12-29T00:00:00.000Z"],
    ["2009-W53-7", "2010-01-03T00:00:00.000Z"],
    ["1985-04-12T10:15:30+04:00", "1985-04-12T06:15:30.000Z"],
    ["1985-04-12T10:15:30+0400", "1985-04-12T06:15:30.000Z"],
    ["1985-04-12T10:15:30+04", "1985-04-12T06:15:30.000Z"],
    ["1985-04-12T10:15:30-05:30", "1985-04-12T15:45:30.000Z"],
    ["1985-04-12T24:00:00", "1985-04-13T00:00:00.000Z"],
    ["1985-04-12T23:20:50.25Z", "1985-04-12T23:20:50.250Z"],
    ["1985-04-12T23:20:50,25Z", "1985-04-12T23:20:50.250Z"],
    ["2024-05-01T10:11:12+02:00[Europe/Berlin]", "2024-05-01T08:11:12.000Z"],
  ])("%s", (text, expected) => expect(instant(text)).toBe(expected));

  // RFC 3339 section 5.8: a leap second; taken as the first second of the next minute, since Unix time has none
  test("1990-12-31T23:59:60Z", () => expect(instant("1990-12-31T23:59:60Z")).toBe("1991-01-01T00:00:00.000Z"));
});

describe("stamps as people and loggers write them", () => {
  test.each([
    ["1.5.24 10:11", "2024-05-01T10:11:00.000Z"],
    ["01.05.2024 10.11.12", "2024-05-01T10:11:12.000Z"],
    ["01.05.2024 - 10:11:12 Uhr", "2024-05-01T10:11:12.000Z"],
    ["01/05/2024, 10:11:12", "2024-05-01T10:11:12.000Z"],
    ["01/05/2024 10h11m12s", "2024-05-01T10:11:12.000Z"],
    ["01/05/2024 10h11", "2024-05-01T10:11:00.000Z"],
    ["2024-05-01-10-11-12", "2024-05-01T10:11:12.000Z"],
    ["2024-05-01_10:11:12", "2024-05-01T10:11:12.000Z"],
    ["2024-05-01 10:11:12:345", "2024-05-01T10:11:12.345Z"],
    ["2024/05/01 10:11:12 PM", "2024-05-01T22:11:12.000Z"],
    ["05/01/24 12:00:00 AM", "2024-01-05T00:00:00.000Z"],
    ["01-May-2024 1:02:03 p.m.", "2024-05-01T13:02:03.000Z"],
    ["Wed May  1 10:11:12 2024", "2024-05-01T10:11:12.000Z"],
    ["Wed, 01 May 2024 10:11:12 GMT", "2024-05-01T10:11:12.000Z"],
    ["May 1, 2024 10:11:12", "2024-05-01T10:11:12.000Z"],
    ["1. März 2024, 10:11", "2024-03-01T10:11:00.000Z"],
    ["Mi 01.05.2024 10:11", "2024-05-01T10:11:00.000Z"],
    ["1 févr. 2024 10:11", "2024-02-01T10:11:00.000Z"],
    ["mar. 7 mai 2024 10:11", "2024-05-07T10:11:00.000Z"],
    ["mar 07/05/2024 10:11", "2024-05-07T10:11:00.000Z"],
    ["1er août 2024 à 10:11", "2024-08-01T10:11:00.000Z"],
    ["1 de mayo de 2024 10:11", "2024-05-01T10:11:00.000Z"],
    ["1-ene-2024 10:11", "2024-01-01T10:11:00.000Z"],
    ["1 de março de 2024 às 10:11", "2024-03-01T10:11:00.000Z"],
    ["1 dic 2024 10:11", "2024-12-01T10:11:00.000Z"],
    ["1º maggio 2024 10:11", "2024-05-01T10:11:00.000Z"],
    ["1 mrt 2024 10:11", "2024-03-01T10:11:00.000Z"],
    ["6/5/2024, 10:11:12 p. m.", "2024-05-06T22:11:12.000Z"],
    ["06052024 101112", "2024-05-06T10:11:12.000Z"],
    ["06/May/2024:10:11:12 +0200", "2024-05-06T08:11:12.000Z"],
    ["31/04/2024 10:11", null],
    ["29/02/2023", null],
    ["45321.5", null],
    ["1.25", null],
    ["hello", null],
    ["2024-05-01 10:61:00", null],
    ["2024-05-01 25:00:00", null],
  ])("%s", (text, expected) => expect(instant(text)).toBe(expected));
});

/** Month names as CLDR gives them through Intl, an outside list. */
describe("month names of seven languages as Intl writes them", () => {
  for (const locale of ["en-GB", "en-US", "de", "fr", "es", "nl", "pt-BR", "it", "de-AT"])
    for (const style of ["long", "short"] as const)
      test(`${locale} ${style}`, () => {
        const format = new Intl.DateTimeFormat(locale, { day: "numeric", month: style, year: "numeric", timeZone: "UTC" });
        for (let month = 0; month < 12; month++) {
          const at = Date.UTC(2024, month, 9);
          expect([format.format(at), instant(format.format(at))]).toEqual([format.format(at), new Date(at).toISOString()]);
        }
      });
});

const two = (n: number) => String(n).padStart(2, "0");

/** Any instant, written in any form, comes back. */
test("what is written in a form is read back", () => {
  const forms: Readonly<Record<string, readonly [DateOrder, (d: Date) => string]>> = {
    iso: ["dmy", (d) => d.toISOString()],
    basic: ["mdy", (d) => d.toISOString().replace(/[-:]|\.\d+/g, "")],
    dmy: [
      "dmy",
      (d) =>
        `${d.getUTCDate()}/${d.getUTCMonth() + 1}/${d.getUTCFullYear()} ${d.getUTCHours()}:${two(d.getUTCMinutes())}:${two(d.getUTCSeconds())}`,
    ],
    mdy: [
      "mdy",
      (d) =>
        `${two(d.getUTCMonth() + 1)}-${two(d.getUTCDate())}-${d.getUTCFullYear()} ${two(d.getUTCHours())}:${two(d.getUTCMinutes())}:${two(d.getUTCSeconds())}`,
    ],
    ymd2: [
      "ymd",
      (d) =>
        `${two(d.getUTCFullYear() % 100)}.${two(d.getUTCMonth() + 1)}.${two(d.getUTCDate())} ${two(d.getUTCHours())}:${two(d.getUTCMinutes())}:${two(d.getUTCSeconds())}`,
    ],
    american: ["mdy", (d) => d.toLocaleString("en-US", { timeZone: "UTC" })],
    british: ["dmy", (d) => d.toLocaleString("en-GB", { timeZone: "UTC", dateStyle: "full", timeStyle: "medium" })],
    german: ["dmy", (d) => d.toLocaleString("de", { timeZone: "UTC", dateStyle: "full", timeStyle: "medium" })],
    french: ["dmy", (d) => d.toLocaleString("fr", { timeZone: "UTC", dateStyle: "long", timeStyle: "medium" })],
    spanish: ["dmy", (d) => d.toLocaleString("es", { timeZone: "UTC", dateStyle: "long", timeStyle: "medium" })],
    dutch: ["dmy", (d) => d.toLocaleString("nl", { timeZone: "UTC", dateStyle: "full", timeStyle: "medium" })],
    italian: ["dmy", (d) => d.toLocaleString("it", { timeZone: "UTC", dateStyle: "medium", timeStyle: "medium" })],
    portuguese: ["dmy", (d) => d.toLocaleString("pt-BR", { timeZone: "UTC", dateStyle: "full", timeStyle: "medium" })],
    offset: ["dmy", (d) => `${new Date(d.getTime() + 5.5 * 3600e3).toISOString().slice(0, 19)}+05:30`],
  };
  const seconds = fc.integer({ min: Date.UTC(1975, 0, 1) / 1000, max: Date.UTC(2068, 0, 1) / 1000 });
  fc.assert(
    fc.property(seconds, fc.constantFrom(...Object.keys(forms)), (at, name) => {
      const [order, write] = forms[name];
      const text = write(new Date(at * 1000));
      expect([text, instant(text, order)]).toEqual([text, new Date(at * 1000).toISOString()]);
    }),
    { numRuns: 3000 },
  );
});
