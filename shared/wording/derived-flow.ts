import { sayTimes, type Write } from "./told";

/** The name of a channel of flow that is worked out of a counter. */
export const flowFrom = (heading: string): string => `Flow from ${heading}`;

/** How a flow comes out of a counter: `falls` of a running total are resets. */
export type DerivedFlowInWords = { readonly counter: string; readonly isTotal: boolean; readonly falls: number };

export const sayDerivedFlow = ({ counter, isTotal, falls }: DerivedFlowInWords, w: Write): string => {
  const reset = falls === 0 ? "" : ` The total falls ${sayTimes(falls, w)}: it was reset or rolled over, and there is no flow there.`;
  return `"${flowFrom(counter)}" is worked out of the ${isTotal ? "running total" : "counts of each interval"} in "${counter}".${reset}`;
};
