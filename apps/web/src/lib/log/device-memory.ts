/** What this device remembers from one note to the next, so that nobody is asked twice (criteria B8). */
const KEYS = { food: 'last-food', unit: 'last-unit' } as const;

/** Null in private windows, which may keep nothing, and on the server. */
export function recall(what: keyof typeof KEYS): string | null {
  try {
    return localStorage.getItem(KEYS[what]);
  } catch {
    return null;
  }
}

export function remember(what: keyof typeof KEYS, value: string): void {
  try {
    localStorage.setItem(KEYS[what], value);
  } catch {
    // As above: then the usual ones stand.
  }
}
