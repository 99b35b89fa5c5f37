import { describe, expect, test } from 'vitest';
import { csvFault, looksLikeFormula } from './rfc4180.ts';

describe('csvFault() against the examples of RFC 4180, section 2', () => {
  test.each([
    ['rule 1: records on lines of their own', 'aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n'],
    ['rule 2: the last record without a line break', 'aaa,bbb,ccc\r\nzzz,yyy,xxx'],
    ['rule 3: a header line', 'field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n'],
    ['rule 4: one record', 'aaa,bbb,ccc'],
    ['rule 5: fields in double quotes or not', '"aaa","bbb","ccc"\r\nzzz,yyy,xxx'],
    ['rule 6: line breaks, quotes and commas inside', '"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx'],
    ['rule 7: a double quote doubled', '"aaa","b""bb","ccc"'],
  ])('takes %s', (_, text) => {
    expect(csvFault(text)).toBeUndefined();
  });

  test.each([
    ['a bare line feed', 'a,b\nc,d\r\n'],
    ['a bare carriage return', 'a,b\rc,d\r\n'],
    ['a quote in a field without quotes', 'a,b"b\r\n'],
    ['text after a closing quote', '"a"b,c\r\n'],
    ['a quote that is never closed', 'a,"b\r\n'],
    ['a record that is too short', 'a,b\r\nc\r\n'],
    ['an empty line between records', 'a,b\r\n\r\nc,d\r\n'],
    ['a tab as it is', 'a,\tb\r\n'],
  ])('refuses %s', (_, text) => {
    expect(csvFault(text)).toBeDefined();
  });
});

test.each(['=1+1', '+1', '-1+1', '@SUM(A1)', '\t=1', '\r=1', ' =1', '＝1'])('looksLikeFormula(%j) is true', (cell) => {
  expect(looksLikeFormula(cell)).toBe(true);
});

test.each(['', 'Crab Lane', '-3.5', '12', "'=1+1", 'a=b', '2026-05-01'])('looksLikeFormula(%j) is false', (cell) => {
  expect(looksLikeFormula(cell)).toBe(false);
});
