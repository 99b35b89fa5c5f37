/**
 * The code of a bin as a hand types it: small letters, a gap, a dash, or the whole address of its label.
 *
 * @returns Capital letters and digits only; empty when there are none
 */
export function typedCode(typed: string): string {
  const last = typed.trim().replace(/\/+$/, '').split('/').at(-1) ?? '';
  return last.toUpperCase().replace(/[^A-Z0-9]/g, '');
}
