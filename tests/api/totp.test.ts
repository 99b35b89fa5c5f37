import { expect, it } from 'vitest';
import { base32Of, bytesOf, hotp, otpauthUri, totpStep } from '../../apps/api/src/services/totp.ts';

const secret = Buffer.from('12345678901234567890');

/** RFC 4226, appendix D: count and six-digit value. */
const rfc4226 = ['755224', '287082', '359152', '969429', '338314', '254676', '287922', '162583', '399871', '520489'];

it('hotp() gives the ten values of RFC 4226, appendix D', () => {
  expect(rfc4226.map((_value, count) => hotp(secret, count))).toEqual(rfc4226);
});

/** RFC 6238, appendix B, the rows of SHA-1: Unix time and eight-digit value. */
const rfc6238 = [
  [59, '94287082'],
  [1_111_111_109, '07081804'],
  [1_111_111_111, '14050471'],
  [1_234_567_890, '89005924'],
  [2_000_000_000, '69279037'],
  [20_000_000_000, '65353130'],
] as const;

it.each(rfc6238)('hotp() gives the value of RFC 6238, appendix B, at %i s', (unixS, value) => {
  expect(hotp(secret, Math.floor(unixS / 30), 8)).toBe(value);
});

/** RFC 4648, section 10, without its padding, which authenticators leave out. */
const rfc4648 = [
  ['', ''],
  ['f', 'MY'],
  ['fo', 'MZXQ'],
  ['foo', 'MZXW6'],
  ['foob', 'MZXW6YQ'],
  ['fooba', 'MZXW6YTB'],
  ['foobar', 'MZXW6YTBOI'],
] as const;

it.each(rfc4648)('base32Of() writes "%s" as RFC 4648 does, and bytesOf() reads it', (text, written) => {
  expect(base32Of(Buffer.from(text))).toBe(written);
  expect(bytesOf(written).toString()).toBe(text);
});

it('totpStep() takes a clock half a minute off, not a minute, and no code twice', () => {
  const text = base32Of(secret);
  const step = 41_000_000;
  const at = (steps: number) => new Date((step + steps) * 30_000);
  const code = hotp(secret, step);
  expect([-2, -1, 0, 1, 2].map((steps) => totpStep(text, code, at(steps), null))).toEqual([null, step, step, step, null]);
  expect(totpStep(text, code, at(0), step)).toBeNull();
  expect(totpStep(text, hotp(secret, step + 1), at(1), step)).toBe(step + 1);
});

it('otpauthUri() names account and secret', () => {
  const uri = new URL(otpauthUri('MZXW6YTB', 'ada@example.org'));
  expect([uri.protocol, uri.host, decodeURIComponent(uri.pathname)]).toEqual(['otpauth:', 'totp', '/Middenry:ada@example.org']);
  expect(Object.fromEntries(uri.searchParams)).toEqual({
    secret: 'MZXW6YTB',
    issuer: 'Middenry',
    algorithm: 'SHA1',
    digits: '6',
    period: '30',
  });
});
