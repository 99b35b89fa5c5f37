import { route } from '../../routing/route.ts';
import { correct } from '../../services/entry-corrections.ts';
import { revisionOf } from '../../services/entry-revision.ts';

export const correctEntry = route('correctEntry', (call) => {
  const revision = revisionOf(call.request.headers['if-match']);
  return correct(call, { id: call.params.id, revision, content: call.body }, call.own);
});
