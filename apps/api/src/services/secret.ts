import { createHash, randomBytes, randomInt, timingSafeEqual } from 'node:crypto';

/** 31 signs that cannot be taken for one another when read aloud or copied by hand. */
const CLEAR_SIGNS = '23456789ABCDEFGHJKMNPQRSTUVWXYZ';
const TOKEN_BYTES = 32;

/** 256 random bits for an address or a cookie. */
export const newToken = (): string => randomBytes(TOKEN_BYTES).toString('base64url');

/** A code for people to type. */
export const newCode = (length: number): string => Array.from({ length }, () => CLEAR_SIGNS[randomInt(CLEAR_SIGNS.length)]).join('');

export const newSixDigits = (): string => String(randomInt(1_000_000)).padStart(6, '0');

/** What the store keeps of a secret. */
export const hashOf = (...parts: readonly string[]): string => createHash('sha256').update(parts.join('\0')).digest('hex');

/** Compares two hashes without telling by time how far they agree. */
export const sameHash = (a: string, b: string): boolean => a.length === b.length && timingSafeEqual(Buffer.from(a), Buffer.from(b));

/** A short name that follows from an id: what people type to say which of several requests is theirs. */
export const nameOfId = (id: string, length: number): string =>
  Array.from(createHash('sha256').update(id).digest().subarray(0, length), (byte) => CLEAR_SIGNS[byte % CLEAR_SIGNS.length]).join('');
