import { readSelection, selectionQuery } from '$lib/board/selection.ts';
import { text } from '$lib/errors/act.ts';
import { flagActions } from '$lib/flags/flag-actions.ts';
import type { Actions } from './$types';

/** A word on a flag, from the board's list; then the board as it was looked at. */
export const actions: Actions = flagActions(
  (form) => `/${selectionQuery(readSelection(new URLSearchParams(text(form, 'selection'))))}#list`,
);
