/** A sentence or name as it stands within another. */
export const withSmallInitial = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);
