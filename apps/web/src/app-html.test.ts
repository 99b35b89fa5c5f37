import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const read = (file: string) => readFileSync(new URL(file, import.meta.url), 'utf8');

describe('app.html', () => {
  it('holds one script in the page itself, and the policy knows its hash', () => {
    const scripts = [...read('app.html').matchAll(/<script>(.*?)<\/script>/gs)].map((m) => m[1] ?? '');
    expect(scripts).toHaveLength(1);
    const hash = createHash('sha256')
      .update(scripts[0] ?? '')
      .digest('base64');
    expect(read('../svelte.config.js')).toContain(`'sha256-${hash}'`);
  });
});
