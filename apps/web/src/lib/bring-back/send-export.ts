/** Sends a zip to the server piece by piece: it never lies in memory whole, and a piece that was cut is sent again. */
import type { Problem } from '@middenry/contract';
import { call, filled, type Outcome } from '../api/call.ts';
import type { Answer } from '../api/calls.ts';
import { FAR_CALLS } from '../api/far-calls.ts';
import { PAGES_RELEASE, RELEASE_HEADER } from '../api/release.ts';

const PIECE_BYTES = 8 * 1024 * 1024;
const TRIES = 5;
const REST_MS = 2000;

interface Sending {
  readonly id: string;
  readonly code: string;
  readonly file: File;
  /** Told the share that has come, between 0 and 1. */
  readonly onShare: (share: number) => void;
}

/** What is in the zip once all of it has come, or what went wrong. */
export async function sendExport({ id, code, file, onShare }: Sending): Promise<Outcome<Answer<'checkBringBack'>>> {
  const begun = await call(fetch, 'beginBringBack', { body: { id, code, bytes: file.size } });
  if (!begun.ok) return begun;
  for (let received = 0; received < file.size; ) {
    const answer = await patiently(() => sendPiece(id, file, received));
    if (!answer.ok) return answer;
    received = answer.data.received;
    onShare(received / file.size);
  }
  return call(fetch, 'checkBringBack', { params: { id }, body: {} as never });
}

/** A server that does not answer, or is still at the piece that was cut, is asked again. */
async function patiently<T>(send: () => Promise<Outcome<T>>): Promise<Outcome<T>> {
  for (let tries = 1; ; tries += 1) {
    const answer = await send();
    if (answer.ok || tries === TRIES || !['unavailable', 'still-running'].includes(answer.problem.code)) return answer;
    await new Promise((done) => setTimeout(done, REST_MS));
  }
}

async function sendPiece(id: string, file: File, at: number): Promise<Outcome<Answer<'putBringBackPiece'>>> {
  const none = { ok: false, problem: { ...NO_ANSWER } } as const;
  try {
    const response = await fetch(filled(FAR_CALLS.putBringBackPiece, { id }, { at }), {
      method: 'PUT',
      body: file.slice(at, at + PIECE_BYTES),
      headers: { 'content-type': 'application/zip', [RELEASE_HEADER]: String(PAGES_RELEASE) },
    });
    if (!(response.headers.get('content-type') ?? '').includes('json')) return none;
    const body: unknown = await response.json();
    return response.ok ? { ok: true, data: body as Answer<'putBringBackPiece'> } : { ok: false, problem: body as Problem };
  } catch {
    return none;
  }
}

const NO_ANSWER: Problem = {
  ...{ type: 'about:blank', title: 'No answer', status: 503, detail: 'The server did not answer.', code: 'unavailable', requestId: '' },
};
