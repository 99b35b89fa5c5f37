/** The file is not what SQLite wrote. */
export const isDamage = (code: string): boolean => /^SQLITE_(CORRUPT|NOTADB)/.test(code);

/** SQLite's own name of a fault, also where a query builder has wrapped it; empty for anything else. */
export function sqliteCodeOf(error: unknown): string {
  const { code, cause } = (error ?? {}) as { code?: unknown; cause?: unknown };
  if (typeof code === 'string' && code.startsWith('SQLITE_')) return code;
  return cause === undefined ? '' : sqliteCodeOf(cause);
}
