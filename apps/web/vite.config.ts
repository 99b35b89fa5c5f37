import { sveltekit } from '@sveltejs/kit/vite';
import { defineConfig } from 'vite';

const api = process.env.API_ORIGIN ?? 'http://127.0.0.1:4860';

export default defineConfig({
  plugins: [sveltekit()],
  server: { host: '127.0.0.1', port: 4870, proxy: { '/api': api } },
  build: {
    target: ['es2022', 'safari15', 'chrome100', 'firefox100'],
    // Colours stay as written: plain.gen.css serves the older browsers, and a rewriting would undo that.
    cssTarget: ['chrome123', 'safari17.5', 'firefox120'],
  },
});
