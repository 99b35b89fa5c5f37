import { route } from '../../routing/route.ts';
import { resolveSession } from '../../services/session.ts';
import { cookieName } from '../../services/session-cookie.ts';

export const readEvents = route('readEvents', (call) => {
  const { request, reply, store, clock } = call;
  const last = lastEventId(request.headers['last-event-id']);
  if (call.query.once) return request.server.events.missed(last, call.who.personId);
  const token = request.cookies[cookieName(call.config)] ?? '';
  const headers = Object.fromEntries(Object.entries(reply.getHeaders()).map(([name, value]) => [name, String(value)]));
  reply.hijack();
  request.server.events.open(
    reply.raw,
    // A proxy that collects an answer before passing it on would hold every event back.
    { ...headers, 'content-type': 'text/event-stream; charset=utf-8', 'cache-control': 'no-store', 'x-accel-buffering': 'no' },
    last,
    { personId: call.who.personId, stillIn: () => resolveSession(store, clock.now(), token) !== null },
  );
  return '';
});

/** The number that the browser sends back; anything else is as if it had none. */
function lastEventId(header: string | string[] | undefined): number | null {
  const number = Number(header);
  return typeof header === 'string' && /^\d+$/.test(header) && Number.isSafeInteger(number) ? number : null;
}
