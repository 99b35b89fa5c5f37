import { describe, expect, it } from 'vitest';
import { readAudit } from './audit.mjs';

const hole = (name: string, severity: string, fixAvailable: boolean) => ({ name, severity, range: '<2.0.0', fixAvailable });

describe('readAudit()', () => {
  it.each([
    ['nothing', ''],
    [
      'a refusal',
      '{"message":"405 Method Not Allowed","statusCode":405,"error":{"summary":""}}\nnpm error audit endpoint returned an error',
    ],
    ['half an answer', '{"vulnerabilities": {'],
  ])('E18: calls %s no answer, and never "no hole"', (_what, output) => {
    expect(readAudit(output)).toEqual({ answered: false, lines: [], grave: 0 });
  });

  it('E18: tells each hole, how grave it is and by when it is closed, and counts the grave ones', () => {
    const vulnerabilities = { a: hole('a', 'low', true), b: hole('b', 'critical', false), c: hole('c', 'high', true) };
    expect(readAudit(`npm warn something\n${JSON.stringify({ auditReportVersion: 2, vulnerabilities })}`)).toEqual({
      answered: true,
      lines: [
        'critical: b <2.0.0; no newer version closes it yet; to be closed within 7 days',
        'high: c <2.0.0; a newer version closes it; to be closed within 30 days',
        'low: a <2.0.0; a newer version closes it; to be closed with the next release',
      ],
      grave: 2,
    });
  });

  it('E18: says so when there is none', () => {
    expect(readAudit('{"auditReportVersion":2,"vulnerabilities":{}}')).toEqual({ answered: true, lines: [], grave: 0 });
  });
});
