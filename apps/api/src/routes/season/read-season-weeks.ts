import { route } from '../../routing/route.ts';
import { seasonRange } from '../../services/season-range.ts';
import { readSeasonWeeks as read } from '../../services/season-weeks.ts';

export const readSeasonWeeks = route('readSeasonWeeks', (call) => read(call, seasonRange(call)));
