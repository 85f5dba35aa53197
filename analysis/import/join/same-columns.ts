import type { Channel } from "../../../shared/record/log-record";
import type { PlacedPart } from "./same-log";

type Key = (channel: Channel) => string;
/** What names a channel in two parts of one log. */
const byHeading: Key = ({ heading, quantity, role }) => JSON.stringify([heading, quantity, role]);
/** The same where a logger was set to another unit between two parts ("Pressure (bar)", then "Pressure (psi)"): the values are SI in both. */
const byName: Key = ({ heading, quantity, role, unitInFile }) =>
  JSON.stringify([unitInFile === null ? heading : heading.replace(/\s*[[(][^\])]*[\])]/g, "").trim(), quantity, role]);

/** A channel of a part in which it was not logged: nothing but missing values. */
const missingIn = (part: PlacedPart, channel: Channel): Channel => ({
  ...channel,
  sampling: part.origins[0].sampling,
  values: new Float32Array(part.channels[0].values.length).fill(Number.NaN),
});

/**
 * Two parts with the same channels in the same order, so that they can be one log: columns may have changed places, and a channel may have been added or
 * taken away between one part and the next, where one part holds all that the other does. Null where they are no such parts, or where two channels of
 * one name stand in another order and nothing tells them apart. Long form keeps an origin a channel and is not joined with others.
 */
export const alignParts = (a: PlacedPart, b: PlacedPart): readonly [PlacedPart, PlacedPart] | null =>
  alignBy(byHeading, a, b) ?? (apart(a, b) ? alignBy(byName, a, b) : null);

function alignBy(key: Key, a: PlacedPart, b: PlacedPart): readonly [PlacedPart, PlacedPart] | null {
  if (a.origins.length !== 1 || b.origins.length !== 1 || a.channels.length === 0 || b.channels.length === 0) return null;
  if (a.channels.length < b.channels.length) {
    const turned = alignBy(key, b, a);
    return turned === null ? null : [turned[1], turned[0]];
  }
  const wanted = a.channels.map(key);
  const given = b.channels.map(key);
  if (wanted.length === given.length && wanted.every((name, i) => name === given[i])) return [a, b];
  if (new Set(wanted).size < wanted.length || given.some((name) => !wanted.includes(name))) return null;
  if (wanted.length > given.length && !apart(a, b)) return null;
  const evenly = b.channels.every(({ sampling }) => sampling === b.origins[0].sampling);
  if (wanted.length > given.length && !evenly) return null;
  const channels = a.channels.map((channel, i) => b.channels[given.indexOf(wanted[i])] ?? missingIn(b, channel));
  return [a, { ...b, channels }];
}

const apart = (a: PlacedPart, b: PlacedPart) => a.start > b.start + b.duration || b.start > a.start + a.duration;
