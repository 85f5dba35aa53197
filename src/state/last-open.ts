const LAST_OPEN = "evenhead-visit";

/** Remembers the visit on the page for a reload; per tab, since two tabs may look at two visits. */
export function rememberOpen(id: string): void {
  try {
    sessionStorage.setItem(LAST_OPEN, id);
  } catch {
    // Storage refused: a reload then begins with the list.
  }
}

export function lastOpen(): string | null {
  try {
    return sessionStorage.getItem(LAST_OPEN);
  } catch {
    return null;
  }
}
