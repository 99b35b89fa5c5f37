/** What every answer says about itself, whatever was asked (criteria E9). */
const ALWAYS = {
  'x-content-type-options': 'nosniff',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'x-frame-options': 'DENY',
  'permissions-policy': 'camera=(self), geolocation=(), microphone=(), payment=(), usb=()',
};
export const NOTHING_TO_LOAD = "default-src 'none'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'";
/** Types whose bytes are text in a character set that has to be named; a stream of events is UTF-8 by its own standard. */
const TEXT = /^(text\/(?!event-stream)|application\/(json|problem\+json|schema\+json))/;
/** A link that is a secret is told to nobody at all. */
const REFERRERS: readonly unknown[] = ['same-origin', 'no-referrer'];
const FORBIDDEN = ['access-control-allow-origin', 'server', 'x-powered-by'];

/** One line for each header that is missing, wrong, or says too much. */
export function headerFaults(headers: Readonly<Record<string, unknown>>, hasBody: boolean): string[] {
  const type = String(headers['content-type'] ?? '');
  const policy = String(headers['content-security-policy']);
  return [
    ...Object.entries(ALWAYS).flatMap(([name, value]) => (headers[name] === value ? [] : [`${name}: ${String(headers[name])}`])),
    ...(REFERRERS.includes(headers['referrer-policy']) ? [] : [`referrer-policy: ${String(headers['referrer-policy'])}`]),
    ...(policy === NOTHING_TO_LOAD ? [] : [`policy: ${policy}`]),
    ...(hasBody && type === '' ? ['no content type'] : []),
    ...(TEXT.test(type) && !/charset=utf-8/i.test(type) ? [`no character set: ${type}`] : []),
    ...FORBIDDEN.filter((name) => headers[name] !== undefined),
  ];
}
