// The floor that our server is held against: the same database file, bare Fastify, bare SQL, no model, no checks, no access rules.
// Plain JavaScript, so that no compiler stands between it and Node.
import { randomUUID } from 'node:crypto';
import Database from 'better-sqlite3';
import Fastify from 'fastify';

const [, , file] = process.argv;
const db = new Database(file);
db.pragma('journal_mode = WAL');
db.pragma('synchronous = FULL');

const board = db.prepare(`
  SELECT b.id, b.code, b.name, b.kind, b.place_order, b.state, s.name AS site,
    (SELECT max(e.happened_at) FROM entry e WHERE e.bin_id = b.id AND e.kind = 'feeding' AND e.undone_at IS NULL) AS last_fed,
    (SELECT max(e.happened_at) FROM entry e WHERE e.bin_id = b.id AND e.kind = 'check' AND e.undone_at IS NULL) AS last_checked,
    (SELECT sum(i.grams) FROM entry e JOIN feeding_item i ON i.entry_id = e.id WHERE e.bin_id = b.id AND e.undone_at IS NULL) AS fed_g
  FROM bin b JOIN site s ON s.id = b.site_id WHERE b.state <> 'retired' ORDER BY b.place_order, b.code`);
const bin = db.prepare('SELECT * FROM bin WHERE id = ?');
const entries = db.prepare('SELECT * FROM entry WHERE bin_id = ? AND undone_at IS NULL ORDER BY happened_at DESC LIMIT 200');
const items = db.prepare('SELECT i.* FROM feeding_item i JOIN entry e ON e.id = i.entry_id WHERE e.bin_id = ? AND e.undone_at IS NULL');

const addEntry = db.prepare(`INSERT INTO entry (id, kind, bin_id, happened_at, local_date, received_at) VALUES (?, 'feeding', ?, ?, ?, ?)`);
const addFeeding = db.prepare('INSERT INTO feeding (entry_id, zone) VALUES (?, 1)');
const addItem = db.prepare(`INSERT INTO feeding_item (entry_id, seq, material_id, grams, how) VALUES (?, 0, ?, 500, 'weighed')`);
const feed = db.transaction((binId, materialId) => {
  const id = randomUUID();
  const now = new Date().toISOString();
  addEntry.run(id, binId, now, now.slice(0, 10), now);
  addFeeding.run(id);
  addItem.run(id, materialId);
  return id;
});

const app = Fastify();
app.get('/bare', () => ({ ok: true }));
app.get('/board', (_request, reply) => reply.type('application/json').send(JSON.stringify(board.all())));
app.get('/bin/:id', ({ params: { id } }, reply) =>
  reply.type('application/json').send(JSON.stringify({ bin: bin.get(id), entries: entries.all(id), items: items.all(id) })),
);
app.post('/feeding', ({ body }, reply) => reply.code(201).send({ id: feed.immediate(body.binId, body.materialId) }));

for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => app.close().then(() => db.close()));
await app.listen({ host: '127.0.0.1', port: Number(process.env.PORT ?? 0) });
console.log(`http://127.0.0.1:${app.server.address().port}`);
