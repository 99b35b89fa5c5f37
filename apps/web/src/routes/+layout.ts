import { browser } from '$app/environment';
import { need } from '$lib/api/call.ts';
import { serverOrPocket, todayIn } from '$lib/pocket/server-or-pocket.ts';
import type { LayoutLoad } from './$types';

/** Who is here and how numbers look for them; every page leans on it. Without a network, whoever was here last. */
export const load: LayoutLoad = async ({ fetch, depends }) => {
  depends('app:session');
  const { session, source } = await serverOrPocket(
    fetch,
    async (send) => ({ session: await need(send, 'readSession') }),
    ({ session }) => ({ session: { ...session, today: todayIn(session.programme?.timeZone ?? 'UTC') } }),
  );
  // Whoever signed out takes along what the phone carried for them.
  if (browser && source.from === 'server' && session.person === null)
    void import('$lib/pocket/store.ts').then(({ rememberPerson }) => rememberPerson(null)).catch(() => undefined);
  return { session, sessionFrom: source };
};
