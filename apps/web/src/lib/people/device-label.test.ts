import { describe, expect, it } from 'vitest';
import { deviceLabel } from './device-label.ts';

describe('deviceLabel()', () => {
  it.each([
    ['Mozilla/5.0 (iPhone; CPU iPhone OS 17_0 like Mac OS X)', 'iPhone or iPad'],
    ['Mozilla/5.0 (Linux; Android 14; Pixel)', 'Android phone'],
    ['Mozilla/5.0 (X11; Linux x86_64)', 'Linux computer'],
    ['', ''],
  ])('calls %j %j', (agent, label) => {
    expect(deviceLabel(agent)).toBe(label);
  });
});
