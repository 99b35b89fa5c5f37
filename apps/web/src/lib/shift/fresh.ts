import type { SubmitFunction } from '@sveltejs/kit';
import { invalidateAll } from '$app/navigation';

/** A refusal says that the page was behind, such as when somebody else was faster: it is read anew either way. */
export const fresh: SubmitFunction =
  () =>
  async ({ result, update }) => {
    await update();
    if (result.type === 'failure') await invalidateAll();
  };
