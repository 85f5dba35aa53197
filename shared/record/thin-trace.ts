import type { ChannelQuantity, ChannelRole } from "./channel-role";

/** A trace thinned to equal columns of time for a picture: least and greatest value of each, so that no spike is lost. */
export type ThinTrace = {
  /** Record time of the first column's left edge and the last one's right edge, s. */
  readonly fromS: number;
  readonly toS: number;
  readonly channels: readonly {
    readonly heading: string;
    readonly role: ChannelRole;
    readonly quantity: ChannelQuantity;
    /** SI, shape [columns]; null where the column holds no sample. */
    readonly low: readonly (number | null)[];
    readonly high: readonly (number | null)[];
  }[];
};
