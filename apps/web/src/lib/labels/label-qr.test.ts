import { describe, expect, it } from 'vitest';
import { LONGEST_ADDRESS, labelAddress, leadsOnlyHere } from './address.ts';
import { labelQr, QR_WIDTH_MM, QUIET_MODULES } from './label-qr.ts';

const widthMm = (modules: number) => (QR_WIDTH_MM * modules) / (modules + 2 * QUIET_MODULES);

describe('B20: labelQr()', () => {
  it.each([
    ['https://bins.example.org', 'T1', 'H'],
    ['https://middenry.longer.example', 'T12', 'Q'],
    ['https://a.example', 'F1', 'H'],
  ] as const)('%s/b/%s: level %s, version 4 at most, 45 mm wide, modules of 1.2 mm', (origin, code, level) => {
    const address = labelAddress(origin, code);
    expect(address.length).toBeLessThanOrEqual(LONGEST_ADDRESS);
    const qr = labelQr(address);
    expect(qr).toMatchObject({ level, modules: 17 + 4 * qr.version });
    expect(qr.version).toBeLessThanOrEqual(4);
    expect(widthMm(qr.modules)).toBeGreaterThanOrEqual(45);
    expect(widthMm(qr.modules) / qr.modules).toBeGreaterThanOrEqual(1.2);
  });

  it('B20: the longest address that is allowed still makes version 4', () => {
    const address = labelAddress(`https://${'b'.repeat(19)}.example`, 'T1').padEnd(LONGEST_ADDRESS, '2');
    expect(address).toHaveLength(LONGEST_ADDRESS);
    expect(labelQr(address)).toMatchObject({ version: 4, level: 'Q' });
  });
});

it('an address of this machine alone is known as one', () => {
  const hosts = [
    'http://127.0.0.1:4860',
    'http://localhost:4860',
    'http://[::1]:4860',
    'https://bins.example.org',
    'https://localhost.example',
  ];
  expect(hosts.map(leadsOnlyHere)).toEqual([true, true, true, false, false]);
});
