import type { BoundRoute } from '../../routing/route.ts';
import { beginBringBack } from './begin-bring-back.ts';
import { checkBringBack } from './check-bring-back.ts';
import { putBringBackPiece } from './put-bring-back-piece.ts';
import { takeBringBack } from './take-bring-back.ts';

export const bringBackHandlers: readonly BoundRoute[] = [beginBringBack, putBringBackPiece, checkBringBack, takeBringBack];
