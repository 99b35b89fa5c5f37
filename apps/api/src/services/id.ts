import { createHash } from 'node:crypto';

/**
 * An id that follows from another one, so that whatever is made along with a thing is the same when
 * the thing is sent again (UUID version 8, RFC 9562: its bits are ours to choose).
 */
export function derivedId(baseId: string, name: string): string {
  const bytes = createHash('sha256').update(`${baseId} ${name}`).digest().subarray(0, 16);
  bytes[6] = (bytes[6]! & 0x0f) | 0x80;
  bytes[8] = (bytes[8]! & 0x3f) | 0x80;
  const hex = bytes.toString('hex');
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-');
}
