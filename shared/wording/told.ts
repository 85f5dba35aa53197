import { formatNumber, formatOwn } from "../units/format-quantity";
import { sayCivil, sayCivilDay } from "./instant";

/** Writes what stands in a sentence as its reader does. */
export type Write = {
  /** Null writes a point and no grouping. */
  readonly locale: string | null;
  /** With the decimals that the number has itself. */
  readonly number: (value: number) => string;
  readonly fixed: (value: number, decimals: number) => string;
  /** An instant of a clock without a zone, s as if UTC. */
  readonly instant: (at: number) => string;
  /** A day in the form 2024-05-03. */
  readonly day: (iso: string) => string;
};

type Sentence = (values: never, write: Write) => unknown;
/** Sentences by their kind, each with the values it needs. */
export type Sentences = { readonly [kind: string]: (values: never, write: Write) => string };
/** A question as the engineer would put it, and what follows from each of its options, in their order; empty where it goes without saying. */
export type Asked = { readonly text: string; readonly meaning: readonly string[] };
export type Questions = { readonly [kind: string]: (values: never, write: Write) => Asked };
type ValuesOf<S> = S extends (values: infer V, write: Write) => unknown ? (unknown extends V ? unknown : Readonly<V>) : never;

/**
 * What is told by one of a list of sentences, as plain data: which of them, and the values in it. It crosses the worker's border as it is and becomes
 * text where it is shown, in the language and the numbers of who reads it.
 */
export type Told<List> = { readonly [Kind in keyof List]: { readonly kind: Kind } & ValuesOf<List[Kind]> }[keyof List];

/** How one of a list of sentences is said as a part of another. */
export function partOf<const List extends { readonly [kind: string]: Sentence }>(list: List) {
  return (told: Told<List>, write: Write): ReturnType<List[keyof List]> =>
    // The values of a kind are those of its own sentence, by the type of what is told; the compiler does not follow the two.
    list[told.kind](told as never, write) as ReturnType<List[keyof List]>;
}

/** How one of a list of sentences is said to a reader. */
export function sayerOf<const List extends { readonly [kind: string]: Sentence }>(list: List) {
  const say = partOf(list);
  return (told: Told<List>, locale: string | null) =>
    say(told, {
      locale,
      number: (value) => formatOwn(value, locale),
      fixed: (value, decimals) => formatNumber(value, decimals, locale),
      instant: (at) => sayCivil(at, locale),
      day: (iso) => sayCivilDay(iso, locale),
    });
}

/** Names in a row, each between quotes. */
export const quoted = (names: readonly string[], between = ", "): string => names.map((name) => `"${name}"`).join(between);
/** "once", "3 times". */
export const sayTimes = (count: number, w: Write): string => (count === 1 ? "once" : `${w.number(count)} times`);
