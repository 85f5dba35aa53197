/** What could be read of a file of parts, by name, and the names of the parts that could not. */
export type ReadParts = { readonly parts: ReadonlyMap<string, unknown>; readonly damaged: readonly string[] };

/**
 * Reads a JSON object as a whole where it is sound. Where it is not, each line is one part (`"name":value,`) and is read by itself;
 * a line that begins no part belongs to the damaged one before it.
 */
export function readParts(text: string): ReadParts {
  const whole = parsed(text);
  if (typeof whole === "object" && whole !== null && !Array.isArray(whole)) return { parts: new Map(Object.entries(whole)), damaged: [] };
  const parts = new Map<string, unknown>();
  const damaged = new Set<string>();
  for (const line of text.replace(/^\uFEFF?\s*\{/, "").split(/\r?\n/)) {
    const name = /^\s*"([a-z]+)":/.exec(line);
    if (name === null) continue;
    const value = parsed(line.slice(name[0].length).trim().replace(/,$/, ""));
    if (value === undefined) damaged.add(name[1]);
    else parts.set(name[1], value);
  }
  return { parts, damaged: [...damaged] };
}

/** Undefined where the text is no JSON: no JSON value is undefined. */
function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
