const LOOPBACK = /^(localhost|127\.0\.0\.1|\[::1\])(:\d{1,5})?$/;

/**
 * The origin a page request belongs to; the pages compare a form's Origin with it.
 *
 * Only the configured address or a loopback name is believed, since the Host header comes from
 * whoever asks.
 *
 * @returns An origin such as `https://bins.example.org`; null when the host is neither
 */
export function pageOrigin(publicUrl: string | undefined, host: string | undefined): string | null {
  if (host === undefined) return null;
  if (publicUrl !== undefined) {
    const own = new URL(publicUrl);
    if (own.host === host.toLowerCase()) return own.origin;
  }
  return LOOPBACK.test(host) ? `http://${host}` : null;
}
