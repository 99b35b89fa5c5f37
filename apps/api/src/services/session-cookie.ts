import type { FastifyReply } from 'fastify';
import type { Config } from '../config.ts';

/** `__Host-` binds a cookie to this host over https; a browser would refuse it on plain http. */
export const cookieName = (config: Config): string => (config.secure ? '__Host-middenry' : 'middenry');

export function setSessionCookie(reply: FastifyReply, config: Config, token: string, expiresAt: Date): void {
  reply.setCookie(cookieName(config), token, { ...options(config), expires: expiresAt });
}

export function clearSessionCookie(reply: FastifyReply, config: Config): void {
  reply.clearCookie(cookieName(config), options(config));
}

const options = (config: Config) => ({ path: '/', httpOnly: true, sameSite: 'lax' as const, secure: config.secure });
