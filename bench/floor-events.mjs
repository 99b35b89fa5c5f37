// The floor of the fan-out: bare Fastify that tells everybody who listens, with no store behind it.
import Fastify from 'fastify';

const listeners = new Set();
const app = Fastify({ forceCloseConnections: true });
app.get('/events', (request, reply) => {
  reply.hijack();
  reply.raw.writeHead(200, { 'content-type': 'text/event-stream' });
  reply.raw.write('event: here\ndata: {}\n\n');
  listeners.add(reply.raw);
  request.raw.on('close', () => listeners.delete(reply.raw));
});
app.post('/say', () => {
  for (const listener of listeners) listener.write('event: change\ndata: {}\n\n');
  return { told: listeners.size };
});

for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => app.close());
await app.listen({ host: '127.0.0.1', port: Number(process.env.PORT ?? 0) });
console.log(`http://127.0.0.1:${app.server.address().port}`);
