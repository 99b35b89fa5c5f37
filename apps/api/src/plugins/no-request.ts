import { randomBytes } from 'node:crypto';
import type { Socket } from 'node:net';
import type { FastifyInstance } from 'fastify';
import { problemOf } from './problem.ts';

const INCIDENT_LETTERS = '23456789abcdefghjkmnpqrstuvwxyz';

/** Ten characters that can be read out over a telephone; one in 10^14, so that it finds one line of the log. */
export function incidentCode(): string {
  return Array.from(randomBytes(10), (byte) => INCIDENT_LETTERS[byte % INCIDENT_LETTERS.length]).join('');
}

const LINES: Readonly<Record<string, readonly [status: number, words: string]>> = {
  ERR_HTTP_REQUEST_TIMEOUT: [408, 'Request Timeout'],
  HPE_HEADER_OVERFLOW: [431, 'Request Header Fields Too Large'],
};

/** Bytes that are no request, or end too late for one: the connection ends with words like those of any refusal (criteria E16). */
export function answerNoRequest(this: FastifyInstance, error: Error & { readonly code?: string }, socket: Socket): void {
  if (error.code === 'ECONNRESET' || socket.destroyed) return;
  const [status, words] = LINES[error.code ?? ''] ?? [400, 'Bad Request'];
  const incident = incidentCode();
  this.log.info({ incident, status, fault: error.code }, 'no request');
  const body = JSON.stringify({ ...problemOf(status === 431 ? 'too-large' : 'bad-request', incident), status });
  const head = [`HTTP/1.1 ${status} ${words}`, 'content-type: application/problem+json; charset=utf-8', 'connection: close'];
  if (socket.writable) socket.write([...head, `content-length: ${Buffer.byteLength(body)}`, '', body].join('\r\n'));
  socket.destroy(error);
}
