import { Buffer } from 'node:buffer';
import { SHEET_MOST_BYTES } from '@middenry/contract';
import type { FastifyReply, FastifyRequest } from 'fastify';

/** Forms are short; anything longer is a mistake or an attack. */
const BODY_LIMIT_BYTES = 64 * 1024;
/** But for a spreadsheet, sent by the one page that takes them. */
const SHEET_LIMIT_BYTES = SHEET_MOST_BYTES + BODY_LIMIT_BYTES;
const limitOf = ({ url }: FastifyRequest): number => (/^\/import([/?]|$)/.test(url) ? SHEET_LIMIT_BYTES : BODY_LIMIT_BYTES);

/** Reads a form's body while counting, since a length header may be missing or wrong. */
export async function readBody(request: FastifyRequest): Promise<Buffer | null | 'too-large'> {
  if (request.method === 'GET' || request.method === 'HEAD') return null;
  const limit = limitOf(request);
  if (Number(request.headers['content-length'] ?? 0) > limit) return 'too-large';
  const pieces: Buffer[] = [];
  let bytes = 0;
  for await (const piece of request.raw as AsyncIterable<Buffer>) {
    bytes += piece.length;
    if (bytes > limit) return 'too-large';
    pieces.push(piece);
  }
  return Buffer.concat(pieces);
}

/** The same request in the words of the web platform. */
export function toWebRequest(request: FastifyRequest, origin: string, body: Buffer | null): Request {
  const headers = new Headers();
  for (const [name, value] of Object.entries(request.headers)) {
    if (value === undefined || name.startsWith(':')) continue;
    for (const one of Array.isArray(value) ? value : [value]) headers.append(name, one);
  }
  return new Request(origin + request.url, { method: request.method, headers, body: body === null ? null : new Uint8Array(body) });
}

/** Sends a page through Fastify, so that its hooks, log and compression apply. */
export async function writeWebResponse(response: Response, reply: FastifyReply): Promise<FastifyReply> {
  reply.code(response.status);
  for (const [name, value] of response.headers) if (name !== 'set-cookie') reply.header(name, value);
  for (const cookie of response.headers.getSetCookie()) reply.header('set-cookie', cookie);
  if (response.body === null) return reply.send();
  return reply.send(Buffer.from(await response.arrayBuffer()));
}
