import { route } from '../../routing/route.ts';
import { type Feed, readFeed } from '../../services/calendar/feed.ts';

const SUFFIX = /\.ics$/;
const KEPT_SECONDS = 900;

export const readCalendar = route('readCalendar', (call) => {
  const feed = readFeed(call, call.params.file.replace(SUFFIX, ''), call.request.ip);
  call.header('cache-control', `private, max-age=${KEPT_SECONDS}`);
  call.header('etag', feed.etag);
  call.header('last-modified', feed.changedAt.toUTCString());
  call.header('referrer-policy', 'no-referrer');
  call.header('x-robots-tag', 'noindex');
  if (!isUnchanged(feed, call.request.headers)) return feed.text;
  void call.reply.code(304).send();
  return '';
});

/** RFC 9110, section 13.2.2: the date counts only where no tag was sent. */
function isUnchanged({ etag, changedAt }: Feed, headers: Readonly<Record<string, string | string[] | undefined>>): boolean {
  const tags = headers['if-none-match'];
  if (typeof tags === 'string') return tags.split(',').some((tag) => ['*', etag, `W/${etag}`].includes(tag.trim()));
  const since = Date.parse(String(headers['if-modified-since'] ?? ''));
  return !Number.isNaN(since) && changedAt.getTime() <= since;
}
