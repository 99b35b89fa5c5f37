import { redirect } from '@sveltejs/kit';
import { act, text } from '$lib/errors/act.ts';
import { paths } from '$lib/paths/paths.ts';
import { qrSvg } from '$lib/people/qr.ts';
import { uuid7 } from '$lib/shared/uuid7.ts';
import type { Actions } from './$types';

export const actions: Actions = {
  add: async ({ request, fetch, url }) => {
    const form = await request.formData();
    const outcome = await act(
      fetch,
      'addLink',
      {
        body: {
          id: text(form, 'id') || uuid7(),
          kind: text(form, 'kind') === 'season' ? 'season' : 'board',
          siteId: text(form, 'siteId') || null,
          label: text(form, 'label'),
        },
      },
      form,
    );
    if (!outcome.ok) return outcome.refused;
    const link = url.origin + outcome.data.path;
    return { made: { link, qr: await qrSvg(link) } };
  },
  revoke: async ({ request, fetch }) => {
    const form = await request.formData();
    const outcome = await act(fetch, 'revokeLink', { params: { id: text(form, 'linkId') } }, form);
    return outcome.ok ? redirect(303, paths.links) : outcome.refused;
  },
};
