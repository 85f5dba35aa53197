import { spacedWords } from "./column-facts";
import type { ColumnReading, ColumnText } from "./column-reading";

/**
 * Channels of one role are told apart by the words of their headings that the others have not ("north", "garden"), where no word for a position is
 * known. Numbers and single letters say nothing of a place and are left out, and so is what stands in brackets.
 */
export function tellApart(readings: readonly ColumnReading[], columns: readonly ColumnText[]): readonly ColumnReading[] {
  const words = columns.map(({ heading }) => new Set(spacedWords(heading.replace(/[[({<][^\])}>]*[\])}>]/g, " ")).split(" ")));
  return readings.map((reading, i) => {
    if (reading.position !== null || reading.role === "other" || reading.role === "time") return reading;
    const twins = readings.flatMap((other, k) =>
      k !== i && other.role === reading.role && columns[k].sample.some((cell) => cell !== "") ? [words[k]] : [],
    );
    if (twins.length === 0) return reading;
    const unit = reading.unit?.toLowerCase();
    const own = [...words[i]].filter((word) => /\p{L}{2}/u.test(word) && word !== unit && twins.every((twin) => !twin.has(word)));
    return own.length === 0 ? reading : { ...reading, position: own.join(" ") };
  });
}
