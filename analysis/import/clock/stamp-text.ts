import { calendarWord } from "./calendar-words";
import { dayNumber } from "./civil-days";
import { keepingLately } from "./lately-read";
import { dateOfNumbers, dateOfWeek, dateWithMonth, timeOfNumbers } from "./loose-numbers";
import { packedDays } from "./odd-dates";
import { placeZoneIn } from "./place-zone";
import type { DateOrder, Stamp } from "./stamp";
import { isDigit, isHourMark, isLetter, MINUS } from "./stamp-characters";
import { plainStamp } from "./stamp-marks";

/** Characters: a weekday, a month, an offset and the long name of a zone. */
export const LONGEST_STAMP = 80;

/** Reads one cell from left to right. Fields are filled as they come; `finish` makes sense of the numbers left over. */
class StampScanner {
  private at = 0;
  private month = Number.NaN;
  private monthAfter = 0;
  private week = Number.NaN;
  private seconds = Number.NaN;
  private offset = Number.NaN;
  private days = Number.NaN;
  private half = 0;
  private readonly numbers: number[] = [];
  private readonly lengths: number[] = [];

  constructor(
    private readonly text: string,
    private readonly order: DateOrder,
  ) {}

  scan(): Stamp | null {
    while (this.at < this.text.length) if (!this.step()) return null;
    return this.finish();
  }

  private step(): boolean {
    const code = this.text.charCodeAt(this.at);
    if (isDigit(code)) return this.digits();
    if (isLetter(code)) return this.word();
    const character = this.text[this.at];
    if (
      !Number.isNaN(this.seconds) &&
      !this.isInDate() &&
      (character === "+" || MINUS.includes(character)) &&
      isDigit(this.text.charCodeAt(this.at + 1))
    )
      return this.readOffset(character === "+" ? 1 : -1);
    // RFC 9557: the zone behind the stamp; what a bracket adds to an offset says it again ("GMT+0100 (Central European Time)")
    if (character === "[" || (character === "(" && !Number.isNaN(this.offset))) {
      this.at = this.text.length;
      return true;
    }
    this.at++;
    // "06/May/2024:10:15:30": the first colon parts date and time
    if (character === ":" && this.numbers.length >= 2 && Number.isNaN(this.seconds)) return isDigit(this.text.charCodeAt(this.at));
    return " /.-,_'\u2019\u2013\u00a0\u202f()\u00ba\u00aa".includes(character);
  }

  /** A date behind its time has begun and is not over: what follows is no offset ("05:50:00 26-06-2023"). */
  private isInDate(): boolean {
    const parts = this.numbers.length + (Number.isNaN(this.month) ? 0 : 1);
    return Number.isNaN(this.days) && parts > 0 && parts < 3;
  }

  private run(): number {
    const from = this.at;
    while (isDigit(this.text.charCodeAt(this.at))) this.at++;
    return this.at - from;
  }

  private digits(): boolean {
    const from = this.at;
    // "28AUG23:23:00:00": the year stands before the first colon
    if (!Number.isNaN(this.month) && this.numbers.length === 1 && /^\d{2}:\d{1,2}:\d{2}:\d{2}/.test(this.text.slice(from, from + 12))) {
      this.pushNumber(this.number(), 2);
      this.at++;
      return true;
    }
    const length = this.run();
    const next = this.text[this.at];
    if (length <= 2 && Number.isNaN(this.seconds) && (next === ":" || ((next === "h" || next === "H") && isHourMark(this.text, this.at)))) {
      this.at = from;
      return this.time();
    }
    if (length === 8 && this.numbers.length === 0 && Number.isNaN(this.days)) return this.basicDate(from, 8) || this.packedDate(from);
    if ((length === 4 || length === 6) && !Number.isNaN(this.days) && Number.isNaN(this.seconds) && this.numbers.length === 0) {
      return this.basicTime(from, length);
    }
    if ((length === 17 || length === 14 || length === 12) && this.numbers.length === 0) {
      if (this.basicDate(from, 8)) return this.basicTime(from + 8, Math.min(6, length - 8)) && this.thousandths(length - 14);
      // "240501101530": so many digits begin with the year
      this.days = length === 12 ? packedDays(this.text.slice(from, from + 6), "ymd") : Number.NaN;
      return !Number.isNaN(this.days) && this.basicTime(from + 6, 6);
    }
    if (length === 6 && this.numbers.length === 0 && Number.isNaN(this.days) && Number.isNaN(this.seconds)) return this.packedDate(from);
    // only the fraction of a second is longer: "14-SEP-23 01.05.20.000000"
    if (length > (this.text[from - 1] === "." && this.numbers.length >= 5 ? 9 : 4)) return false;
    this.numbers.push(Number(this.text.slice(from, from + length)));
    this.lengths.push(length);
    return true;
  }

  private basicDate(from: number, length: number): boolean {
    const year = Number(this.text.slice(from, from + 4));
    this.days =
      year >= 1900 && year < 2200
        ? dayNumber(year, Number(this.text.slice(from + 4, from + 6)), Number(this.text.slice(from + 6, from + length)))
        : Number.NaN;
    return !Number.isNaN(this.days);
  }

  private packedDate(from: number): boolean {
    this.days = packedDays(this.text.slice(from, this.at), this.order);
    return !Number.isNaN(this.days);
  }

  private basicTime(from: number, length: number): boolean {
    const part = (k: number) => (length >= 2 * k + 2 ? Number(this.text.slice(from + 2 * k, from + 2 * k + 2)) : 0);
    if (length !== 2 && length !== 4 && length !== 6) return false;
    this.at = from + length;
    return this.setTime(part(0), part(1), part(2) + (length === 6 ? this.fraction() : 0));
  }

  /** Three digits right behind the seconds. */
  private thousandths(length: number): boolean {
    if (length !== 3) return true;
    this.seconds += Number(this.text.slice(this.at, this.at + 3)) / 1000;
    this.at += 3;
    return true;
  }

  /** hh:mm, hh:mm:ss, hh:mm:ss.f, hh:mm:ss:mmm, 10h15, 10h15m20s. */
  private time(): boolean {
    const hour = this.number();
    this.at++;
    if (this.text[this.at] === " ") this.at++;
    if (!isDigit(this.text.charCodeAt(this.at))) return this.setTime(hour, 0, 0);
    const minute = this.number();
    let second = 0;
    const mark = this.text[this.at];
    if ((mark === ":" || mark === "m" || mark === "'") && isDigit(this.text.charCodeAt(this.at + 1))) {
      this.at++;
      second = this.number() + this.fraction();
      if (this.text[this.at] === ":" && /^\d{3}(?!\d)/.test(this.text.slice(this.at + 1, this.at + 5))) {
        this.at++;
        second += this.number() / 1000;
      }
      if (this.text[this.at] === "s" && !isLetter(this.text.charCodeAt(this.at + 1))) this.at++;
    } else if (mark === "m" && !isLetter(this.text.charCodeAt(this.at + 1)) && this.text[this.at + 1] !== ".") this.at++;
    return this.setTime(hour, minute, second);
  }

  private number(): number {
    const from = this.at;
    const length = this.run();
    return length > 3 ? Number.NaN : Number(this.text.slice(from, this.at));
  }

  private fraction(): number {
    const mark = this.text[this.at];
    if ((mark !== "." && mark !== ",") || !isDigit(this.text.charCodeAt(this.at + 1))) return 0;
    this.at++;
    const from = this.at;
    this.run();
    return Number(`0.${this.text.slice(from, this.at)}`);
  }

  private setTime(hour: number, minute: number, second: number): boolean {
    if (!(hour <= 24 && minute <= 59 && second < 61) || (hour === 24 && minute + second > 0)) return false;
    this.seconds = hour * 3600 + minute * 60 + second;
    return true;
  }

  private readOffset(sign: number): boolean {
    const match = /^(\d{1,2})(?::?(\d{2}))?(?!\d)/.exec(this.text.slice(this.at + 1));
    if (match === null) return false;
    this.at += 1 + match[0].length;
    this.offset = sign * (Number(match[1]) * 3600 + Number(match[2] ?? 0) * 60);
    return Math.abs(this.offset) <= 14 * 3600;
  }

  private word(): boolean {
    const from = this.at;
    while (isLetter(this.text.charCodeAt(this.at)) || (this.text[this.at] === "." && isLetter(this.text.charCodeAt(this.at + 1))))
      this.at++;
    const word = this.text.slice(from, this.at);
    // "10:15 p. m."
    if (/^[ap]$/i.test(word) && !Number.isNaN(this.seconds)) {
      this.half = word.toLowerCase() === "p" ? 2 : 1;
      // "10:15p" has lost its m
      this.at += /^\.?\s?m\.?(?!\p{L})/iu.exec(this.text.slice(this.at))?.[0].length ?? 0;
      return true;
    }
    // the hour that comes twice when summer time ends, "02:10A" and then "02:10B": the rows say by their order which it is
    if (word === "B" && this.seconds >= 3600 && this.seconds < 4 * 3600) return true;
    if (word === "T" || word === "t") return this.afterT();
    if ((word === "W" || word === "w") && this.numbers.length === 1) {
      const length = this.run();
      const digits = this.text.slice(this.at - length, this.at);
      this.week = Number(digits.slice(0, 2));
      if (length === 3) this.pushNumber(Number(digits.slice(2)), 1);
      return length >= 2 && length <= 3;
    }
    const meaning = calendarWord(word);
    if (meaning === null) return this.placeZone(from);
    if (meaning.kind === "month") {
      // "mar." is also Tuesday in French, Spanish and Italian: another month after it wins
      if (!Number.isNaN(this.month) && this.month !== 3) return false;
      this.month = meaning.month;
      this.monthAfter = this.numbers.length;
    } else if (meaning.kind === "half") this.half = meaning.pm ? 2 : 1;
    else if (meaning.kind === "zone") this.offset = Number.isNaN(this.offset) ? meaning.offset : this.offset;
    return true;
  }

  /** "Europe/Berlin" behind a time: which offset it had is for the whole column to say. */
  private placeZone(from: number): boolean {
    const name = Number.isNaN(this.seconds) ? undefined : placeZoneIn(this.text.slice(from));
    if (name === undefined) return false;
    this.at = from + name.length;
    return true;
  }

  private pushNumber(value: number, length: number): void {
    this.numbers.push(value);
    this.lengths.push(length);
  }

  private afterT(): boolean {
    const from = this.at;
    const length = this.run();
    if (this.text[this.at] === ":") {
      this.at = from;
      return this.time();
    }
    return this.basicTime(from, length);
  }

  private finish(): Stamp | null {
    if (!this.settleDate() || !this.settleHalf()) return null;
    if (Number.isNaN(this.days) && Number.isNaN(this.seconds)) return null;
    return { days: this.days, seconds: this.seconds, offset: this.offset };
  }

  private settleDate(): boolean {
    if (!Number.isNaN(this.days)) return this.timeFromNumbers(0);
    if (this.numbers.length > 0) return this.dateFromNumbers();
    return Number.isNaN(this.month);
  }

  private settleHalf(): boolean {
    if (this.half === 0) return true;
    const hour = Math.floor(this.seconds / 3600);
    if (hour === 12 && this.half === 1) this.seconds -= 12 * 3600;
    if (hour < 12 && this.half === 2) this.seconds += 12 * 3600;
    return !Number.isNaN(this.seconds);
  }

  private dateFromNumbers(): boolean {
    const numbers = { values: this.numbers, lengths: this.lengths };
    if (this.month === 3 && this.monthAfter === 0 && numbers.values.length >= 3 && numbers.values[1] <= 12 && this.lengths[2] !== 3)
      this.month = Number.NaN; // "mar 07/05/2024"
    const date = !Number.isNaN(this.week)
      ? dateOfWeek(numbers, this.week)
      : Number.isNaN(this.month)
        ? dateOfNumbers(numbers, this.order)
        : dateWithMonth(numbers, this.month);
    if (date === null) return false;
    this.days = date.days;
    return this.timeFromNumbers(date.used);
  }

  /** Numbers after the date where no colon showed a time. */
  private timeFromNumbers(from: number): boolean {
    if (this.numbers.length === from) return true;
    const time = Number.isNaN(this.seconds) ? timeOfNumbers({ values: this.numbers, lengths: this.lengths }, from) : null;
    return time !== null && this.setTime(...time);
  }
}

/**
 * Reads a date, a time of day, or both. Forms: ISO 8601 (extended, basic, week, ordinal, offsets), day, month and year in `order` with any of
 * / . - or blanks, month names of seven languages, 12-hour times, a weekday before it. Null where anything in the cell is not understood.
 */
export function readStamp(text: string, order: DateOrder): Stamp | null {
  return text.length < 3 || text.length > LONGEST_STAMP ? null : read(text, order);
}

const read = keepingLately((text, order) => new StampScanner(plainStamp(text), order).scan());
