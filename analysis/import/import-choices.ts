import type { ChannelRole } from "../../shared/record/channel-role";

/** What a person decided, instead of what would be assumed. */
export type ImportChoices = {
  /** Question id to answer, e.g. { "date-order": "dmy", "range:Ch1": "0..10 bar" }. */
  readonly answers: Readonly<Record<string, string>>;
  /** Heading to role and unit; unit null keeps what was read. */
  readonly columns: readonly { readonly heading: string; readonly role: ChannelRole; readonly unit: string | null }[];
  /** IANA name or offset from the site facts. */
  readonly zone: string | null;
};

export const NO_CHOICES: ImportChoices = { answers: {}, columns: [], zone: null };
