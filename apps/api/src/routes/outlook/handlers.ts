import type { BoundRoute } from '../../routing/route.ts';
import { endFlagNote } from './end-flag-note.ts';
import { noteFlag } from './note-flag.ts';
import { readBoard } from './read-board.ts';
import { readEnsemble } from './read-ensemble.ts';
import { readOutlook } from './read-outlook.ts';
import { readWhatIf } from './read-what-if.ts';

/** The board, a bin's outlook, what is tried out on it, and words on its flags. */
export const OUTLOOK_HANDLERS: readonly BoundRoute[] = [endFlagNote, noteFlag, readBoard, readEnsemble, readOutlook, readWhatIf];
