import { Agent, type IncomingMessage, request } from 'node:http';

export interface Answer {
  readonly status: number;
  readonly headers: IncomingMessage['headers'];
  readonly body: string;
  readonly bytes: number;
}

export interface Ask {
  readonly method?: string;
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: string;
}

/** One kept-alive connection to one server: what is measured is the server, not the handshake. */
export class Client {
  readonly origin: string;
  readonly #agent = new Agent({ keepAlive: true, maxSockets: 1 });
  cookie = '';

  constructor(origin: string) {
    this.origin = origin;
  }

  send(path: string, { method = 'GET', headers = {}, body }: Ask = {}): Promise<Answer> {
    const all = {
      ...(this.cookie ? { cookie: this.cookie } : {}),
      ...(body ? { 'content-type': 'application/json', origin: this.origin } : {}),
      ...headers,
    };
    return new Promise((resolve, reject) => {
      const asked = request(this.origin + path, { agent: this.#agent, method, headers: all }, (answer) => {
        const parts: Buffer[] = [];
        answer.on('data', (part: Buffer) => parts.push(part));
        answer.on('error', reject);
        answer.on('end', () => {
          const whole = Buffer.concat(parts);
          resolve({ status: answer.statusCode ?? 0, headers: answer.headers, body: whole.toString('utf8'), bytes: whole.length });
        });
      });
      asked.on('error', reject);
      asked.end(body);
    });
  }

  /** Like `send`, but anything outside 2xx is an error: a fast refusal must never be counted as speed. */
  async ok(path: string, ask: Ask = {}): Promise<Answer> {
    const answer = await this.send(path, ask);
    if (answer.status < 200 || answer.status > 299)
      throw new Error(`${ask.method ?? 'GET'} ${path} answered ${answer.status}: ${answer.body.slice(0, 300)}`);
    return answer;
  }

  /** Enters the demonstration and keeps the cookie. */
  async enterDemo(as: 'coordinator' | 'volunteer'): Promise<void> {
    const answer = await this.ok('/api/session/demo', { method: 'POST', body: JSON.stringify({ as }) });
    this.cookie = (answer.headers['set-cookie'] ?? []).map((cookie) => cookie.split(';')[0]).join('; ');
  }

  close(): void {
    this.#agent.destroy();
  }
}
