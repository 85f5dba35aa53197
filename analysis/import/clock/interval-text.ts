import { foldWord } from "./calendar-words";

/** Seconds in each unit of time as headings and preambles write it, folded; seven languages. Common practice, no source. */
const TIME_UNITS: readonly (readonly [number, RegExp])[] = [
  [1e-9, /^(ns|nsec|nanos|nanoseconds?|nanosekunden?|nanosecondes?|nanosegundos?|nanosecondi|nanoseconden)$/],
  [1e-6, /^(us|usec|µs|μs|microseconds?|mikrosekunden?|microsecondes?|microsegundos?|microsecondi|microseconden)$/],
  [1e-3, /^(ms|msec|msecs|millis|milliseconds?|millisekunden?|millisecondes?|milisegundos?|millisegundos?|millisecondi|milliseconden)$/],
  [1, /^(s|sec|secs|seconds?|sek|sekunden?|secondes?|seg|segs|segundos?|secondi|secondo|seconden|seconde)$/],
  [60, /^(min|mins|minutes?|mn|minuten?|minutos?|minuti|minuto|minuut)$/],
  [3600, /^(h|hr|hrs|hours?|std|stunden?|heures?|hora|horas|ore|ora|uur|uren)$/],
  [86400, /^(d|day|days|tag|tage|tagen|jours?|dias?|giorni|giorno|dagen|dag)$/],
];

/** Seconds in the unit a word names, or null. */
export function timeUnit(word: string): number | null {
  const folded = foldWord(word.trim());
  return TIME_UNITS.find(([, names]) => names.test(folded))?.[0] ?? null;
}

const NUMBER_WORDS: Readonly<Record<string, number>> = {
  one: 1,
  two: 2,
  five: 5,
  ten: 10,
  fifteen: 15,
  thirty: 30,
  sixty: 60,
  ein: 1,
  eine: 1,
  einer: 1,
  un: 1,
  une: 1,
  una: 1,
  uno: 1,
  um: 1,
  uma: 1,
  een: 1,
  zehn: 10,
  dix: 10,
  diez: 10,
  dez: 10,
  dieci: 10,
  tien: 10,
};

/**
 * An interval in words to seconds: "1 s", "00:00:05", "every 10 seconds", "toutes les 10 secondes", "0,5 s", "10 Hz", "4 samples per second".
 * A bare number takes `unit`, the seconds in the unit that stands beside it elsewhere, and is null without one.
 */
export function readInterval(text: string, unit: number | null = null): number | null {
  const clock = /(?<![\d:])(\d{1,3}):(\d{2})(?::(\d{2}(?:[.,]\d+)?))?(?![\d:])/.exec(text);
  if (clock !== null) {
    const parts = [Number(clock[1]), Number(clock[2]), clock[3] === undefined ? null : Number(clock[3].replace(",", "."))];
    return positive(parts[2] === null ? parts[0]! * 60 + parts[1]! : parts[0]! * 3600 + parts[1]! * 60 + parts[2]!);
  }
  const rate = /(\d+(?:[.,]\d+)?)\s*([km]?)hz\b/i.exec(text);
  if (rate !== null) return positive(1 / (number(rate[1]) * (rate[2] === "k" ? 1e3 : rate[2] === "m" ? 1e-3 : 1)));
  const per =
    /(\d+(?:[.,]\d+)?)\s*(?:x\s*)?(?:samples?|readings?|records?|values?|messungen|werte|mesures?|muestras?|amostras?|campioni|metingen)?\s*(?:\/|\bper\b|\bpro\b|\bpar\b|\bpor\b|\bal\b|\bje\b)\s*(\p{L}+)/iu.exec(
      text,
    );
  if (per !== null) {
    const seconds = timeUnit(per[2]);
    if (seconds !== null) return positive(seconds / number(per[1]));
  }
  // "Samples per minute: 30"
  const rateFirst = /\b(?:per|pro|par|por|al|je)\s+(\p{L}+)\W+(\d+(?:[.,]\d+)?)(?![\d.,])/iu.exec(text);
  const unitFirst = rateFirst === null ? null : timeUnit(rateFirst[1]);
  if (rateFirst !== null && unitFirst !== null) return positive(unitFirst / number(rateFirst[2]));
  let total = 0;
  for (const [, amount, word] of text.matchAll(/(\d+(?:[.,]\d+)?|\p{L}+)\s*([\p{L}µ]+)\b\.?/gu)) {
    const count = /^\d/.test(amount) ? number(amount) : (NUMBER_WORDS[foldWord(amount)] ?? Number.NaN);
    const seconds = timeUnit(word);
    if (seconds !== null && count > 0) total += count * seconds;
  }
  if (total > 0) return total;
  const bare = /(?<![\d.,])(\d+(?:[.,]\d+)?)(?![\d.,])/.exec(text);
  return bare !== null && unit !== null ? positive(number(bare[1]) * unit) : null;
}

const number = (text: string) => Number(text.replace(",", "."));
const positive = (seconds: number): number | null => (Number.isFinite(seconds) && seconds > 0 ? seconds : null);
