/** What a password must be before it is kept: long is seen to by the contract, here it is hard to guess (criteria E2). */
import { createHash } from 'node:crypto';
import type { ZxcvbnFactory } from '@zxcvbn-ts/core';
import { refuse } from '../refusal.ts';
import { COMMON_YET_STRONG } from './common-passwords.data.ts';
import { hashPassword } from './password.ts';

/** The highest mark on the scale of Wheeler (2016): more than ten thousand million guesses. */
const LEAST_SCORE = 4;
/** So much must be left without what strangers know of somebody. */
const LEAST_OWN_LENGTH = 8;
/**
 * How closely it is looked at, which holds up everybody else: so it takes a tenth of a second at most, where 64 signs in
 * every spelling took one and a half. What comes after makes no password easier to guess.
 */
const LOOKED_AT = { maxLength: 32, l33tMaxSubstitutions: 4 };

const commonYetStrong = new Set(COMMON_YET_STRONG);
const PRINT_LENGTH = 16;

/** Long and odd, and yet used by many. */
const isCommon = (password: string): boolean =>
  commonYetStrong.has(createHash('sha256').update(password.toLowerCase()).digest('hex').slice(0, PRINT_LENGTH));

let estimator: Promise<ZxcvbnFactory> | undefined;

/** The list of common passwords takes megabytes, and most processes never need it. */
function loaded(): Promise<ZxcvbnFactory> {
  estimator ??= Promise.all([import('@zxcvbn-ts/core'), import('@zxcvbn-ts/language-common')]).then(
    ([{ ZxcvbnFactory: Factory }, { adjacencyGraphs, dictionary }]) => new Factory({ dictionary, graphs: adjacencyGraphs, ...LOOKED_AT }),
  );
  return estimator;
}

/**
 * The hash of a password that somebody chose.
 *
 * @param about What strangers know of this person: it counts as a word that anybody would try
 * @throws {Refusal} password-guessable
 */
export async function hashNewPassword(password: string, about: readonly (string | null | undefined)[]): Promise<string> {
  const known = ['middenry', ...about.flatMap((text) => (text ?? '').toLowerCase().split(/[\s@.]+/))].filter((word) => word.length > 2);
  const own = known.reduce((rest, word) => rest.replaceAll(word, ''), password.toLowerCase());
  const { score } = (await loaded()).check(password.slice(0, LOOKED_AT.maxLength), known);
  if (own.length < LEAST_OWN_LENGTH || score < LEAST_SCORE || isCommon(password)) throw refuse('password-guessable');
  return hashPassword(password);
}
