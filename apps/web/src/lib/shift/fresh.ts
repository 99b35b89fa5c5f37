import type { SubmitFunction } from '@sveltejs/kit';
import { applyAction } from '$app/forms';
import { invalidateAll } from '$app/navigation';

/**
 * A refusal says that the page was behind, such as when somebody else was faster: it is read anew either way.
 *
 * It is applied here, because `update` drops what the action of another page refused, and the messages answer through the shifts.
 */
export const fresh: SubmitFunction =
  () =>
  async ({ result, update }) => {
    if (result.type !== 'failure') return update();
    await applyAction(result);
    await invalidateAll();
  };
