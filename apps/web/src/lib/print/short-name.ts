/** The name for a sheet that hangs where anybody passes: first name and the initial of the last, "Sorrel A.". */
export function shortName(name: string): string {
  const [first = '', ...rest] = name.trim().split(/\s+/);
  const last = rest.at(-1);
  return last === undefined ? first : `${first} ${[...last][0]?.toUpperCase()}.`;
}
