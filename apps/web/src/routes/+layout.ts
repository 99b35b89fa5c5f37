import { isHttpError } from '@sveltejs/kit';
import { browser } from '$app/environment';
import { need } from '$lib/api/call.ts';
import type { Answer } from '$lib/api/calls.ts';
import { serverOrPocket, todayIn } from '$lib/pocket/server-or-pocket.ts';
import type { LayoutLoad } from './$types';

/** A fault of this load would leave a blank page; with nobody here the page that was wanted says what is wrong. */
function nobodyAnswered(problem: unknown): { session: Answer<'readSession'>; source: null } {
  if (!browser || !isHttpError(problem) || problem.body.code !== 'unavailable') throw problem;
  const nobody = { person: null, programme: null, damagedSince: null, demoEntry: false };
  return { session: { ...nobody, today: todayIn('UTC') }, source: null };
}

/** Who is here and how numbers look for them; every page leans on it. Without a network, whoever was here last. */
export const load: LayoutLoad = async ({ fetch, depends }) => {
  depends('app:session');
  const { session, source } = await serverOrPocket(
    fetch,
    async (send) => ({ session: await need(send, 'readSession') }),
    ({ session }) => ({ session: { ...session, today: todayIn(session.programme?.timeZone ?? 'UTC') } }),
  ).catch(nobodyAnswered);
  // Whoever signed out takes along what the phone carried for them.
  if (browser && source?.from === 'server' && session.person === null)
    void import('$lib/pocket/store.ts').then(({ rememberPerson }) => rememberPerson(null)).catch(() => undefined);
  return { session, sessionFrom: source };
};
