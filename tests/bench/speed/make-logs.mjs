// Writes the two logs that every reader reads: a week at 1 s (604 800 rows), plain and awkward. Seeded, so that every run reads the same bytes.
import { existsSync, mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const START = Date.UTC(2026, 0, 5);

/** Small linear congruential generator (constants of Numerical Recipes): enough for a benchmark's noise. */
function chance(seed) {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(1664525, state) + 1013904223) >>> 0;
    return state / 4294967296;
  };
}

const two = (n) => String(n).padStart(2, "0");

/** @returns paths of the plain and the awkward log */
export function makeLogs(folder, rows = 604800) {
  mkdirSync(folder, { recursive: true });
  const plain = join(folder, `plain-${rows}.csv`);
  const awkward = join(folder, `awkward-${rows}.csv`);
  if (existsSync(plain) && existsSync(awkward)) return { plain, awkward };
  const random = chance(7);
  const plainLines = ["time,Pressure (psi),Flow (gpm),Speed (%)"];
  const awkwardLines = ["Zeit;Druck [bar];Durchfluss [L/min];Drehzahl [%]"];
  for (let i = 0; i < rows; i++) {
    const at = new Date(START + i * 1000);
    const pressure = 55 + 3 * Math.sin(i / 90) + random();
    const flow = Math.max(0, 8 * Math.sin(i / 700) + random());
    const speed = 70 + 10 * Math.sin(i / 300);
    plainLines.push(`${at.toISOString().slice(0, 19)},${pressure.toFixed(2)},${flow.toFixed(2)},${speed.toFixed(1)}`);
    const stamp = `${two(at.getUTCDate())}/${two(at.getUTCMonth() + 1)}/${at.getUTCFullYear()} ${two(at.getUTCHours())}:${two(at.getUTCMinutes())}:${two(at.getUTCSeconds())}`;
    awkwardLines.push([stamp, (pressure / 14.5).toFixed(3), (flow * 3.785).toFixed(2), speed.toFixed(1)].join(";").replaceAll(".", ","));
  }
  writeFileSync(plain, `${plainLines.join("\n")}\n`);
  writeFileSync(awkward, `${awkwardLines.join("\n")}\n`);
  return { plain, awkward };
}
