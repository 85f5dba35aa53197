/** What could be read of a file of parts, by name, and the names of the parts that could not. */
export type ReadParts = { readonly parts: ReadonlyMap<string, unknown>; readonly damaged: readonly string[] };

/**
 * Reads a JSON object as a whole where it is sound. Where it is not, each line is one part (`"name":value,`) and is read by itself;
 * a line that begins no part belongs to the damaged one before it.
 */
export function readParts(text: string): ReadParts {
  const whole = parsed(text);
  if (typeof whole === "object" && whole !== null && !Array.isArray(whole)) {
    const all = Object.entries(whole);
    const deep = all.filter(([, value]) => !isWithin(value, DEEPEST));
    return { parts: new Map(all.filter((entry) => !deep.includes(entry))), damaged: deep.map(([name]) => name) };
  }
  const parts = new Map<string, unknown>();
  const damaged = new Set<string>();
  for (const line of text.replace(/^\uFEFF?\s*\{/, "").split(/\r?\n/)) {
    const name = /^\s*"([a-z]+)":/.exec(line);
    if (name === null) continue;
    const value = parsed(line.slice(name[0].length).trim().replace(/,$/, ""));
    if (value === undefined || !isWithin(value, DEEPEST)) damaged.add(name[1]);
    else parts.set(name[1], value);
  }
  return { parts, damaged: [...damaged] };
}

/** Far deeper than any part is; what is deeper still makes those who walk it overflow the stack. */
const DEEPEST = 50;

function isWithin(value: unknown, levels: number): boolean {
  if (typeof value !== "object" || value === null) return true;
  return levels > 0 && Object.values(value).every((inner) => isWithin(inner, levels - 1));
}

/** Undefined where the text is no JSON: no JSON value is undefined. */
function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
