/** A way to the server that fails as networks do. */
import { createServer, type IncomingMessage, request, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';

/**
 * `through`: as it is. `away`: nobody answers. `no-batches`: what waits on phones does not get there.
 * `lost-answers`: the server takes what waited, and no phone hears so.
 */
export type Way = 'through' | 'away' | 'no-batches' | 'lost-answers';

export interface FaultyWay {
  readonly origin: string;
  /** Where it leads. */
  to: string;
  way: Way;
  /** Which service worker the server has: that of its build, that of so many builds later, or the one that takes it off. */
  worker: 'built' | 'off' | { readonly buildsLater: number };
  /** How many answers to batches the server gave and nobody heard. */
  lost: number;
  /** How many batches came this far. */
  batches: number;
  close(): Promise<void>;
}

const isBatch = ({ method, url }: IncomingMessage): boolean => method === 'POST' && url === '/api/entries/batch';

/** Builds are told apart by the time at which they were made. */
async function giveWorker(server: string, worker: 'off' | { readonly buildsLater: number }, answer: ServerResponse): Promise<void> {
  const text = await (await fetch(`${server}/${worker === 'off' ? 'worker-off' : 'service-worker'}.js`)).text();
  const asked = worker === 'off' ? text : text.replace(/`(\d{13})`/, (_, version) => `'${Number(version) + worker.buildsLater}'`);
  if (worker !== 'off' && asked === text) throw new Error('Cannot give a later worker as this one no longer says its version');
  answer.writeHead(200, { 'content-type': 'text/javascript', 'cache-control': 'no-cache' }).end(asked);
}

export async function faultyWayTo(server: string): Promise<FaultyWay> {
  const http: Server = createServer((asked, answer) => {
    if (isBatch(asked)) faulty.batches += 1;
    if (faulty.way === 'away' || (faulty.way === 'no-batches' && isBatch(asked))) return void asked.socket.destroy();
    if (asked.url === '/service-worker.js' && faulty.worker !== 'built') return void giveWorker(faulty.to, faulty.worker, answer);
    forward(asked, answer);
  });
  const forward = (asked: IncomingMessage, answer: ServerResponse) => {
    const onward = request(
      { host: '127.0.0.1', port: new URL(faulty.to).port, method: asked.method, path: asked.url, headers: asked.headers },
      (from) => {
        if (faulty.way === 'lost-answers' && isBatch(asked)) {
          from.resume().once('end', () => {
            faulty.lost += 1;
            asked.socket.destroy();
          });
          return;
        }
        answer.writeHead(from.statusCode ?? 502, from.rawHeaders);
        from.pipe(answer);
      },
    );
    onward.on('error', () => asked.socket.destroy());
    answer.on('close', () => onward.destroy());
    asked.pipe(onward);
  };
  await new Promise<void>((resolve) => http.listen(0, '127.0.0.1', resolve));
  const close = () =>
    new Promise<void>((resolve) => {
      http.close(() => resolve());
      http.closeAllConnections();
    });
  const faulty: FaultyWay = {
    origin: `http://127.0.0.1:${(http.address() as AddressInfo).port}`,
    to: server,
    way: 'through',
    worker: 'built',
    lost: 0,
    batches: 0,
    close,
  };
  return faulty;
}
