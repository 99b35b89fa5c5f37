/** What a note needs from the first touch of its form on, and no page before (B26). */
export { fieldAt } from './body-words.ts';
export { judge } from './judge.ts';
export { noteDown } from './note-down.ts';
export { readFeeding } from './read-form.ts';
export { readBuckets } from './read-harvest.ts';
export { default as SavedEntry } from './SavedEntry.svelte';
export { default as SureAsk } from './SureAsk.svelte';
export { default as UnclearAsk } from './UnclearAsk.svelte';
