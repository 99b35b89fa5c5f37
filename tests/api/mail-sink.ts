/** A mail server on this machine that keeps what it is given, or goes wrong as it is told to. */
import type { AddressInfo } from 'node:net';
import { SMTPServer } from 'smtp-server';

export interface SinkMail {
  readonly to: string;
  /** As it came over the wire. */
  readonly raw: string;
  readonly headers: string;
  readonly body: string;
}

/** `busy`: try later; `cut`: takes the text and breaks off without a word; `slow`: says nothing to an address before `answerNow`. */
export type Manner = 'take' | 'busy' | 'cut' | 'slow';

export interface Sink {
  readonly url: string;
  readonly port: number;
  readonly mails: SinkMail[];
  manner: Manner;
  /** Has no box here. */
  badAddress: string | null;
  /** How many wait for the answer of a slow server. */
  waiting(): number;
  answerNow(): void;
  close(): Promise<void>;
}

const fault = (responseCode: number, text: string) => Object.assign(new Error(text), { responseCode });

export async function openSink(port = 0): Promise<Sink> {
  const held: (() => void)[] = [];
  const sink: Sink = {
    ...{ url: '', port: 0, mails: [], manner: 'take', badAddress: null, close: async () => undefined },
    waiting: () => held.length,
    answerNow() {
      for (const answer of held.splice(0)) answer();
    },
  };
  const server = new SMTPServer({
    authOptional: true,
    hideSTARTTLS: true,
    allowInsecureAuth: true,
    // As careless as a server can be: it says the password back.
    onAuth: ({ password }, _session, done) => done(fault(535, `Wrong password ${password}`)),
    onRcptTo({ address }, _session, done) {
      if (sink.badAddress === address) return done(fault(550, `No box ${address} here`));
      if (sink.manner === 'busy') return done(fault(451, 'Try again later'));
      if (sink.manner === 'slow') return held.push(() => done());
      done();
    },
    onData(stream, session, done) {
      const pieces: Buffer[] = [];
      stream.on('data', (piece: Buffer) => pieces.push(piece));
      stream.on('end', () => {
        const raw = Buffer.concat(pieces).toString('utf8');
        const cut = raw.indexOf('\r\n\r\n');
        for (const { address } of session.envelope.rcptTo)
          sink.mails.push({ to: address, raw, headers: raw.slice(0, cut), body: decode(raw.slice(0, cut), raw.slice(cut + 4)) });
        if (sink.manner !== 'cut') return done();
        server.connections.forEach((connection) => {
          (connection as unknown as { _socket: { destroy(): void } })._socket.destroy();
        });
      });
    },
  });
  // Connections that a test breaks off on purpose.
  server.on('error', () => undefined);
  await new Promise<void>((resolve) => server.listen(port, '127.0.0.1', resolve));
  const at = (server.server.address() as AddressInfo).port;
  return Object.assign(sink, {
    port: at,
    url: `smtp://127.0.0.1:${at}`,
    close: () => new Promise<void>((resolve) => server.close(() => resolve())),
  });
}

/** The text of a mail without its transfer encoding. */
function decode(headers: string, body: string): string {
  if (/^content-transfer-encoding: base64/im.test(headers)) return Buffer.from(body, 'base64').toString('utf8');
  if (!/^content-transfer-encoding: quoted-printable/im.test(headers)) return body;
  const bytes = body.replace(/=\r\n/g, '').replace(/=([0-9A-F]{2})/g, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)));
  return Buffer.from(bytes, 'latin1').toString('utf8');
}
