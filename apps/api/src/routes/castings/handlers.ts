import type { BoundRoute } from '../../routing/route.ts';
import { eraseReceiver } from './erase-receiver.ts';
import { listCastingsMoves } from './list-castings-moves.ts';
import { moveCastings } from './move-castings.ts';
import { readCastingsStock } from './read-castings-stock.ts';
import { undoCastingsMove } from './undo-castings-move.ts';

export const castingsHandlers: readonly BoundRoute[] = [
  readCastingsStock,
  listCastingsMoves,
  moveCastings,
  undoCastingsMove,
  eraseReceiver,
];
