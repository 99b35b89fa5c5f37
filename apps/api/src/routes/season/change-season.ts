import { route } from '../../routing/route.ts';
import { revisionOf } from '../../services/entry-revision.ts';
import { changeSeason as change } from '../../services/named-seasons.ts';

export const changeSeason = route('changeSeason', (call) =>
  change(call, call.params.id, revisionOf(call.request.headers['if-match']), call.body),
);
