/** One of our own names in SQL, where nothing can be bound. */
export const quotedName = (name: string): string => `"${name.replaceAll('"', '""')}"`;
