import { route } from '../../routing/route.ts';
import { readSeasonLink as read } from '../../services/season-link.ts';

const SUFFIX = /\.csv$/;

export const readSeasonLink = route('readSeasonLink', (call) => {
  const text = read(call, call.params.file.replace(SUFFIX, ''), call.request.ip, call.query);
  call.header('cache-control', 'private, no-store');
  call.header('referrer-policy', 'no-referrer');
  call.header('x-robots-tag', 'noindex');
  return text;
});
