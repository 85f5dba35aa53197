import type { Channel } from "../../../shared/record/log-record";
import type { PlacedPart } from "./same-log";

/** What names a channel in two parts of one log. */
const key = ({ heading, quantity, role }: Channel) => JSON.stringify([heading, quantity, role]);

/**
 * The part with its channels in the order of a model part, where both hold the same channels: columns moved or not. Null where they do not, or where
 * two channels of one name stand in another order and nothing tells them apart. Long form keeps an origin a channel and is not joined with others.
 */
export function inOrderOf(model: PlacedPart, part: PlacedPart): PlacedPart | null {
  if (model.origins.length !== 1 || part.origins.length !== 1 || model.channels.length !== part.channels.length) return null;
  const wanted = model.channels.map(key);
  const given = part.channels.map(key);
  if (wanted.every((name, i) => name === given[i])) return part;
  const places = wanted.map((name) => given.indexOf(name));
  if (new Set(wanted).size < wanted.length || places.includes(-1)) return null;
  return { ...part, channels: places.map((at) => part.channels[at]) };
}
