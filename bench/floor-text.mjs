// The floor of the calendar feeds: bare Fastify that sends a word, or a text of a wished size made once, with no store behind it.
import Fastify from 'fastify';

const texts = new Map();
const textOf = (bytes) => {
  if (!texts.has(bytes)) texts.set(bytes, 'x'.repeat(bytes));
  return texts.get(bytes);
};
const app = Fastify();
app.get('/bare', () => ({ ok: true }));
app.get('/text/:bytes', ({ params: { bytes } }, reply) => reply.type('text/calendar; charset=utf-8').send(textOf(Number(bytes))));

for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => app.close());
await app.listen({ host: '127.0.0.1', port: Number(process.env.PORT ?? 0) });
console.log(`http://127.0.0.1:${app.server.address().port}`);
