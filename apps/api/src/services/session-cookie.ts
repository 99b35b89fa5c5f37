import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Config } from '../config.ts';
import type { Frame } from '../context.ts';
import { messageSetting } from '../db/repositories/message-setting.ts';
import { LANGUAGE_COOKIE } from './words/languages.ts';

/** `__Host-` binds a cookie to this host over https; a browser would refuse it on plain http. */
export const cookieName = (config: Config): string => (config.secure ? '__Host-middenry' : 'middenry');

export function setSessionCookie(reply: FastifyReply, config: Config, token: string, expiresAt: Date): void {
  reply.setCookie(cookieName(config), token, { ...options(config), expires: expiresAt });
}

export function clearSessionCookie(reply: FastifyReply, config: Config): void {
  reply.clearCookie(cookieName(config), options(config));
}

const YEAR_SECONDS = 31_536_000;

/** A device on which nobody chose a language yet takes over the one that this person chose elsewhere; scripts of the pages read it. */
export function speakAsChosen(request: FastifyRequest, reply: FastifyReply, { store, config }: Frame, personId: string): void {
  const { language } = messageSetting(store, personId);
  if (language === null || request.cookies[LANGUAGE_COOKIE] !== undefined) return;
  reply.setCookie(LANGUAGE_COOKIE, language, { ...options(config), httpOnly: false, maxAge: YEAR_SECONDS });
}

const options = (config: Config) => ({ path: '/', httpOnly: true, sameSite: 'lax' as const, secure: config.secure });
