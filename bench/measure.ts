/** Times of many repetitions, and what they say. */
export interface Times {
  /** Middle of the sorted times [ms]. */
  readonly medianMs: number;
  /** 95 of 100 are faster [ms]. */
  readonly p95Ms: number;
  readonly count: number;
}

export function timesOf(msList: readonly number[]): Times {
  const sorted = [...msList].sort((one, other) => one - other);
  const at = (share: number): number => sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN;
  return { medianMs: at(0.5), p95Ms: at(0.95), count: sorted.length };
}

/** Runs a piece of work again and again, unmeasured at first so that the code is compiled and the caches are full. */
export async function repeat(
  work: () => Promise<unknown> | unknown,
  { warmUps, count }: { warmUps: number; count: number },
): Promise<number[]> {
  for (let done = 0; done < warmUps; done += 1) await work();
  const found: number[] = [];
  for (let done = 0; done < count; done += 1) {
    const since = performance.now();
    await work();
    found.push(performance.now() - since);
  }
  return found;
}

/**
 * Measures several things in turn, round after round, so that a busy minute of the machine falls on all of them alike.
 *
 * @returns times by name, all rounds together
 */
export async function inTurn<Name extends string>(
  works: Readonly<Record<Name, () => Promise<unknown> | unknown>>,
  { warmUps, count, rounds }: { warmUps: number; count: number; rounds: number },
): Promise<Record<Name, Times>> {
  const names = Object.keys(works) as Name[];
  const all = Object.fromEntries(names.map((name) => [name, [] as number[]])) as Record<Name, number[]>;
  for (const name of names) await repeat(works[name], { warmUps, count: 0 });
  for (let round = 0; round < rounds; round += 1) {
    for (const name of names) all[name].push(...(await repeat(works[name], { warmUps: 0, count })));
  }
  return Object.fromEntries(names.map((name) => [name, timesOf(all[name])])) as Record<Name, Times>;
}

const shown = (value: number): string => (value >= 100 ? value.toFixed(0) : value >= 10 ? value.toFixed(1) : value.toFixed(2));

/** A table for a terminal and for Markdown alike. */
export function table(head: readonly string[], rows: readonly (readonly (string | number)[])[]): string {
  const cells = [head, ...rows].map((row) => row.map((cell) => (typeof cell === 'number' ? shown(cell) : cell)));
  const widths = head.map((_, column) => Math.max(...cells.map((row) => (row[column] ?? '').length)));
  const line = (row: readonly string[]): string => `| ${row.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join(' | ')} |`;
  const rule = `| ${widths.map((width) => '-'.repeat(width)).join(' | ')} |`;
  return [line(cells[0] ?? []), rule, ...cells.slice(1).map(line)].join('\n');
}
