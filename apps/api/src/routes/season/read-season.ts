import { route } from '../../routing/route.ts';
import { readSeason as read } from '../../services/season.ts';
import { seasonRange } from '../../services/season-range.ts';

export const readSeason = route('readSeason', (call) => read(call, seasonRange(call)));
