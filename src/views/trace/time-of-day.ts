const WRITTEN = /^(\d{1,2})(?:[:.h\s]?(\d{2}))?(?:[:.](\d{2}))?\s*(am|pm)?$/i;

/** Seconds since midnight of a time as people write it: "15:30", "15.30", "1530", "3:30 pm", "15:30:20"; null where it is none. */
export function timeOfDay(text: string): number | null {
  const read = WRITTEN.exec(text.trim());
  if (read === null) return null;
  const [, hour, minute = "0", second = "0", half = ""] = read;
  const hours = hourOf(Number(hour), half.toLowerCase());
  if (hours === null || Number(minute) > 59 || Number(second) > 59) return null;
  return hours * 3600 + Number(minute) * 60 + Number(second);
}

function hourOf(written: number, half: string): number | null {
  if (half === "") return written <= 24 ? written : null;
  if (written < 1 || written > 12) return null;
  return (written % 12) + (half === "pm" ? 12 : 0);
}
