/** Handing one mail to the mail server. */
import { createTransport } from 'nodemailer';
import type { MailServer } from '../../mail-server.ts';

export interface Letter {
  readonly to: string;
  readonly subject: string;
  readonly text: string;
  /** The same for the same mail, so that a receiver can tell a copy. */
  readonly messageId: string;
  /** Page on which the reader stops mail like this. */
  readonly stopUrl: string | undefined;
}

export type Outcome =
  | { readonly how: 'handed-over' }
  /** For good: the server will not have this mail, or broke off so late that a second one might be a copy. */
  | { readonly how: 'failed'; readonly error: string }
  /** Not now; `serverDown`: no other mail would fare better. */
  | { readonly how: 'later'; readonly error: string; readonly serverDown: boolean };

export interface Sender {
  send(letter: Letter): Promise<Outcome>;
}

const CONNECT_MS = 10_000;
const SILENCE_MS = 30_000;
const MOST_ERROR_LETTERS = 200;
const PERMANENT = 500;

interface MailFault {
  readonly code?: string;
  readonly responseCode?: number;
  readonly message: string;
}

/** @param silenceMs How long the server may say nothing before the mail is put off */
export function smtpSender(server: MailServer, silenceMs = SILENCE_MS): Sender {
  const { host, port, tls, user, password, from } = server;
  const transport = createTransport({
    ...{ host, port, secure: tls === 'at-once', requireTLS: tls === 'by-starttls' },
    ...(user === undefined ? {} : { auth: { user, pass: password ?? '' } }),
    ...{ connectionTimeout: CONNECT_MS, greetingTimeout: CONNECT_MS, socketTimeout: silenceMs },
    ...{ disableFileAccess: true, disableUrlAccess: true },
  });
  const leaving = new Set<string>();
  transport.use('stream', (mail, done) => {
    const { messageId } = mail.data;
    mail.message.processFunc((text) => {
      // The text flows once the server has asked for it: from then on it may have arrived, whatever is heard of it.
      text.once('resume', () => leaving.add(String(messageId)));
      return text;
    });
    done();
  });
  return {
    async send({ to, subject, text, messageId, stopUrl }) {
      const list = stopUrl === undefined ? {} : { list: { unsubscribe: { url: stopUrl, comment: 'Stop' } } };
      const headers = { 'Auto-Submitted': 'auto-generated' };
      try {
        await transport.sendMail({ ...{ from, to, subject, text, messageId, headers }, ...list });
        return { how: 'handed-over' };
      } catch (error) {
        return outcomeOf(error as MailFault, { hasLeft: leaving.has(messageId), password });
      } finally {
        leaving.delete(messageId);
      }
    },
  };
}

function outcomeOf(fault: MailFault, known: { hasLeft: boolean; password: string | undefined }): Outcome {
  const error = plainly(fault, known.password);
  const { code, responseCode } = fault;
  if (code === 'EAUTH') return { how: 'later', error, serverDown: true };
  if (responseCode !== undefined && responseCode >= PERMANENT) return { how: 'failed', error };
  if (responseCode !== undefined) return { how: 'later', error, serverDown: false };
  if (known.hasLeft) return { how: 'failed', error: `${error}; it may have arrived` };
  return { how: 'later', error, serverDown: true };
}

/** What the server said, in one line without anything secret. */
function plainly({ code, message }: MailFault, password: string | undefined): string {
  const hidden = password === undefined ? message : message.replaceAll(password, '***');
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is taken out
  const line = hidden.replace(/[\u0000-\u001f\u007f]+/g, ' ').trim();
  return `${code ?? 'fault'}: ${line}`.slice(0, MOST_ERROR_LETTERS);
}
