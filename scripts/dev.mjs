// `npm run dev`: the server restarting on every change, and the pages from vite with hot reload and a proxy to the server.
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { ensureInstalled } from './install.mjs';
import { main, root, say } from './lib.mjs';

await main(async () => {
  await ensureInstalled();
  const port = process.env.PORT ?? '4860';
  const env = { ...process.env, PORT: port, NODE_ENV: 'development', API_ORIGIN: `http://127.0.0.1:${port}` };
  const bin = (path) => join(root, 'node_modules', path);
  const start = (args, cwd) => spawn(process.execPath, args, { cwd, env, stdio: 'inherit' });
  say(`the server listens on port ${port}; open the address that vite prints`);
  const children = [
    start([bin('tsx/dist/cli.mjs'), 'watch', 'apps/api/src/server.ts', ...process.argv.slice(2)], root),
    start([bin('vite/bin/vite.js'), 'dev', '--host', '127.0.0.1'], join(root, 'apps/web')),
  ];
  const stopAll = () => children.forEach((child) => void child.kill());
  for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, stopAll);
  process.on('exit', stopAll);
  for (const child of children) {
    child.once('exit', (code) => {
      process.exitCode = code ?? 0;
      stopAll();
    });
  }
});
