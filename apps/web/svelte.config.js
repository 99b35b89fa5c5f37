import { vitePreprocess } from '@sveltejs/vite-plugin-svelte';
import adapter from './adapter/index.js';

/** @type {import('@sveltejs/kit').Config} */
export default {
  preprocess: vitePreprocess(),
  kit: {
    adapter: adapter({ out: 'build' }),
    csp: {
      mode: 'auto',
      directives: {
        'default-src': ['none'],
        // The hash is the one line of app.html that says scripts are on; src/app-html.test.ts compares them.
        'script-src': ['self', 'sha256-vfPfDBwY7I7ySXYzTU9ZS4zAjTohjZuOHMGoLzZG2Ug='],
        // The hash is the inline style of the framework's own route announcer.
        'style-src': ['self', 'unsafe-hashes', 'sha256-S8qMpvofolR8Mpjy4kQvEm7m1q8clzU4dfDH0AmvZjo='],
        'img-src': ['self', 'data:', 'blob:'],
        'font-src': ['self'],
        'connect-src': ['self'],
        'manifest-src': ['self'],
        'worker-src': ['self'],
        'object-src': ['none'],
        'base-uri': ['none'],
        'form-action': ['self'],
        'frame-ancestors': ['none'],
      },
    },
    serviceWorker: { register: false },
    typescript: { config: (config) => ({ ...config, include: [...(config.include ?? []), '../adapter/**/*.js'] }) },
  },
};
