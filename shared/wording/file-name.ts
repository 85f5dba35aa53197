/** Names of the files that the page saves. */
export const FILE_NAMES = {
  findings: (visit: string) => `findings ${visit}.json`,
  allEvents: (visit: string) => `all events ${visit}.csv`,
  events: (visit: string) => `events ${visit}.csv`,
  report: (visit: string) => `report ${visit}.html`,
  companyLimits: "company limits.json",
  corrections: "evenhead corrections.json",
} as const;

/** Files in a line: all of two, or the first and how many more. */
export const firstAndMore = (first: string, more: number): string => `${first} and ${more} more`;
export const filesFrom = (count: number, first: string): string => `${count} files, the first ${first}`;
