import { partOf, type Sentences, type Told } from "./told";

const DATE_ORDERS = {
  dmy: "day, month, year",
  mdy: "month, day, year",
  ymd: "year, month, day",
  ydm: "year, day, month",
} as const;

export type OrderInWords = keyof typeof DATE_ORDERS;
export const sayDateOrder = (order: OrderInWords): string => DATE_ORDERS[order];
export const DATE_ORDERS_IN_WORDS: readonly (readonly [string, string])[] = Object.entries(DATE_ORDERS);

type Order = { readonly order: OrderInWords };
type Witness = Order & { readonly witness: string };

/** What settles the order of day and month. */
const DATE_ORDER_CLUES = {
  dots: () => "Dates with dots are read as day.month.year.",
  spelt: ({ order }: Order) => `The file spells its dates as ${sayDateOrder(order)}.`,
  "written-alike": ({ order, witness }: Witness) => `Read as ${sayDateOrder(order)}, as the file writes "${witness}".`,
  "own-words": ({ order, witness }: Witness) =>
    `Read as ${sayDateOrder(order)}: only so do the dates agree with "${witness}" in the file's own words.`,
  column: ({ order, witness }: Witness) => `Read as ${sayDateOrder(order)}: only so do the dates agree with "${witness}".`,
  locale: ({ order, witness }: Witness) => `Read as ${sayDateOrder(order)}, as the file's locale ${witness} writes dates.`,
  "decimal-commas": () => "Dates are read as day, month, year: wherever decimal commas are written, the month does not come first.",
  "all-exist": () => "Dates are read as year, day, month: only so do they all exist and follow each other.",
  language: () => "Dates are read as day, month, year, as the language of the headings writes them.",
  "day-above-12": ({ order }: Order) => `Dates are read as ${order}: a day above 12 allows no other.`,
  "even-clock": ({ order }: Order) => `Dates are read as ${order}: only so does the clock run evenly.`,
  "other-file": ({ order, file, from }: Order & { readonly file: string; readonly from: string }) =>
    `Dates of ${file} are read as ${order}, as those of ${from} with the same columns.`,
} as const satisfies Sentences;

export type DateOrderClue = Told<typeof DATE_ORDER_CLUES>;
export const sayDateOrderClue = partOf(DATE_ORDER_CLUES);
