/** Every link that is handed to somebody ends in one of these: 32 random bytes in base64url. */
const SECRET = /^[\w-]{43}$/;

/**
 * The secret in what somebody opened or pasted: the whole link, one of the older form (`/join/SECRET`, `/look/SECRET/wall?…`),
 * with marks that a message put round it, or the secret alone.
 *
 * @returns null when there is none
 */
export function secretIn(text: string): string | null {
  return text.split(/[^\w-]+/).findLast((part) => SECRET.test(part)) ?? null;
}
