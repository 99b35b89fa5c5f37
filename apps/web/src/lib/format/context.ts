import { getContext, setContext } from 'svelte';
import type { Format } from './format.ts';

const KEY = Symbol('format');

/** The layout hands down how numbers and days look; a getter, since the programme's units can change. */
export function provideFormat(read: () => Format): void {
  setContext(KEY, read);
}

export function useFormat(): () => Format {
  return getContext<() => Format>(KEY);
}
