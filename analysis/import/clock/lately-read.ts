import type { DateOrder, Stamp } from "./stamp";

type Read = (text: string, order: DateOrder) => Stamp | null;

/** More than the rows of a sample; then all are forgotten, so that the body of a file costs no memory. */
const MOST_KEPT = 2048;

/** The same reading, which keeps what it read lately: every question about a clock asks for the stamps of the sample again. */
export function keepingLately(read: Read): Read {
  const kept: Readonly<Record<DateOrder, Map<string, Stamp | null>>> = { dmy: new Map(), mdy: new Map(), ymd: new Map(), ydm: new Map() };
  return (text, order) => {
    const lately = kept[order];
    const known = lately.get(text);
    if (known !== undefined) return known;
    const stamp = read(text, order);
    if (lately.size >= MOST_KEPT) lately.clear();
    lately.set(text, stamp);
    return stamp;
  };
}
