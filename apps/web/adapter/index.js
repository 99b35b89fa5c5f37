import { rmSync, writeFileSync } from 'node:fs';

/**
 * Puts the built pages where the Fastify process mounts them: client files to be served as
 * they are, the server as a module that answers a Request. No listener of its own.
 *
 * @param {{ out: string }} options
 * @returns {import('@sveltejs/kit').Adapter}
 */
export default function adapter({ out }) {
  return {
    name: 'middenry-in-process',
    async adapt(builder) {
      rmSync(out, { recursive: true, force: true });
      builder.writeClient(`${out}/client`);
      builder.writePrerendered(`${out}/prerendered`);
      builder.writeServer(`${out}/server`);
      // The shell stands in for pages never visited before when there is no signal.
      await builder.generateFallback(`${out}/client/shell.html`);
      await builder.compress(`${out}/client`);
      writeFileSync(`${out}/server/manifest.js`, `export const manifest = ${builder.generateManifest({ relativePath: './' })};\n`);
    },
  };
}
