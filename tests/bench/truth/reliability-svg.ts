import type { ReliabilityBin } from "./cause-score";

const SIDE = 320;
const EDGE = 48;
const LEAST_CLAIMS = 10; // fewer say nothing about a share

const at = (share: number) => EDGE + share * SIDE;
const up = (share: number) => EDGE + (1 - share) * SIDE;
const n = (x: number) => x.toFixed(1);

/** Wilson's 95 % interval of a share (1927). */
export function wilson(share: number, count: number): { readonly low: number; readonly high: number } {
  const z = 1.959964;
  const centre = (share + (z * z) / (2 * count)) / (1 + (z * z) / count);
  const half = (z / (1 + (z * z) / count)) * Math.sqrt((share * (1 - share)) / count + (z * z) / (4 * count * count));
  return { low: Math.max(0, centre - half), high: Math.min(1, centre + half) };
}

/** Claimed against held, one point a bin with its interval; the line is what a calibrated claim keeps to. */
export function reliabilitySvg(bins: readonly ReliabilityBin[], title: string): string {
  const points = bins
    .filter((bin) => bin.claims >= LEAST_CLAIMS)
    .map(({ meanClaim, held, claims }) => {
      const { low, high } = wilson(held, claims);
      const x = n(at(meanClaim));
      return `<path d="M${x} ${n(up(low))}V${n(up(high))}" stroke="#555"/><circle cx="${x}" cy="${n(up(held))}" r="4" fill="#14619c"><title>${claims} claims</title></circle>`;
    });
  const ticks = [0, 0.25, 0.5, 0.75, 1].map(
    (t) =>
      `<text x="${n(at(t))}" y="${EDGE + SIDE + 18}" text-anchor="middle">${t}</text><text x="${EDGE - 8}" y="${n(up(t) + 4)}" text-anchor="end">${t}</text>`,
  );
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${SIDE + 2 * EDGE} ${SIDE + 2 * EDGE + 16}" font-family="sans-serif" font-size="12" role="img" aria-label="${title}">`,
    `<rect width="100%" height="100%" fill="#fff"/>`,
    `<text x="${EDGE}" y="28" font-size="13">${title}</text>`,
    `<rect x="${EDGE}" y="${EDGE}" width="${SIDE}" height="${SIDE}" fill="none" stroke="#999"/>`,
    `<path d="M${at(0)} ${up(0)}L${at(1)} ${up(1)}" stroke="#999" stroke-dasharray="4 4"/>`,
    ...points,
    ...ticks,
    `<text x="${at(0.5)}" y="${EDGE + SIDE + 40}" text-anchor="middle">claimed</text>`,
    `<text x="14" y="${up(0.5)}" text-anchor="middle" transform="rotate(-90 14 ${up(0.5)})">held</text>`,
    "</svg>",
    "",
  ].join("\n");
}
