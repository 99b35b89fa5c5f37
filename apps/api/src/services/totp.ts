import { createHmac, randomBytes } from 'node:crypto';

const STEP_S = 30;
const DIGITS = 6;
const SECRET_BYTES = 20;
const BASE32 = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567';

/** A new shared secret of 160 bits, as authenticators take it (RFC 4648 base 32). */
export function newTotpSecret(): string {
  return base32Of(randomBytes(SECRET_BYTES));
}

/**
 * One-time password of a time step.
 *
 * truncate(HMAC-SHA-1(secret, step)) mod 10^digits
 *
 * @source RFC 4226 section 5.3; RFC 6238 section 4
 */
export function hotp(secret: Buffer, step: number, digits: number = DIGITS): string {
  const counter = Buffer.alloc(8);
  counter.writeBigUInt64BE(BigInt(step));
  const mac = createHmac('sha1', secret).update(counter).digest();
  const offset = mac.at(-1)! & 0x0f;
  const number = mac.readUInt32BE(offset) & 0x7fff_ffff;
  return String(number % 10 ** digits).padStart(digits, '0');
}

/**
 * The time step that a code belongs to, or null when it is wrong or was used before.
 *
 * One step to either side is taken, for clocks that are half a minute off; a step at or before the
 * last one used is not, so that a code that was seen does not open twice.
 */
export function totpStep(secret: string, code: string, now: Date, lastStep: number | null): number | null {
  const key = bytesOf(secret);
  const current = Math.floor(now.getTime() / 1000 / STEP_S);
  for (const step of [current - 1, current, current + 1]) {
    if (lastStep !== null && step <= lastStep) continue;
    if (hotp(key, step) === code) return step;
  }
  return null;
}

export function otpauthUri(secret: string, account: string): string {
  const label = `Middenry:${account}`.split(':').map(encodeURIComponent).join(':');
  return `otpauth://totp/${label}?secret=${secret}&issuer=Middenry&algorithm=SHA1&digits=${DIGITS}&period=${STEP_S}`;
}

export function base32Of(bytes: Buffer): string {
  let bits = '';
  for (const byte of bytes) bits += byte.toString(2).padStart(8, '0');
  return (bits.match(/.{1,5}/g) ?? []).map((group) => BASE32[Number.parseInt(group.padEnd(5, '0'), 2)]).join('');
}

export function bytesOf(base32: string): Buffer {
  let bits = '';
  for (const sign of base32) bits += BASE32.indexOf(sign).toString(2).padStart(5, '0');
  return Buffer.from((bits.match(/.{8}/g) ?? []).map((byte) => Number.parseInt(byte, 2)));
}
