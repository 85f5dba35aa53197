/** Path of a browser, or null. */
export function findBrowser(): string | null;
