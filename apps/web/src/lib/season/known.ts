/** What an older report lacks is said so, and never shown as nothing. */
import { words } from '../messages/index.ts';
import type { CountCell } from './types.ts';

export const knownText =
  (show: (value: number) => string) =>
  (value: number | null): string =>
    value === null ? words.report.notCounted : show(value);

/** With the whole number that is shown rounded. */
export const knownCell =
  (show: (value: number) => string) =>
  (value: number | null): CountCell =>
    value === null ? { text: words.report.notCounted } : { text: show(value), value };
