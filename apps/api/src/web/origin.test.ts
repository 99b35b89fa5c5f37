import { describe, expect, it } from 'vitest';
import { pageOrigin } from './origin.ts';

describe('pageOrigin()', () => {
  it('believes the configured address and loopback names only', () => {
    const own = 'https://bins.example.org';
    expect(pageOrigin(own, 'bins.example.org')).toBe(own);
    expect(pageOrigin(own, 'BINS.example.org')).toBe(own);
    expect(pageOrigin(undefined, '127.0.0.1:4860')).toBe('http://127.0.0.1:4860');
    expect(pageOrigin(own, 'localhost:4860')).toBe('http://localhost:4860');
    expect(pageOrigin(undefined, '[::1]:4860')).toBe('http://[::1]:4860');
  });

  it.each([
    'bins.example.com',
    'bins.example.org.elsewhere.test',
    'bins.example.org:8443',
    '127.0.0.1.elsewhere.test',
    'localhost@elsewhere.test',
    'localhost:123456',
    '',
  ])('refuses %j', (host) => {
    expect(pageOrigin('https://bins.example.org', host)).toBeNull();
  });

  it('refuses a request without a host', () => {
    expect(pageOrigin('https://bins.example.org', undefined)).toBeNull();
  });
});
