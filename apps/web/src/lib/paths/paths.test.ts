import { describe, expect, it } from 'vitest';
import { pageClass } from './page-class.ts';
import { ownPath } from './paths.ts';

describe('ownPath()', () => {
  it('keeps our own pages', () => {
    expect(ownPath('/bins/1/log?kind=check')).toBe('/bins/1/log?kind=check');
  });
  it.each([`/${'/elsewhere'}`, 'mailto:elsewhere', '/\\elsewhere', '', null, undefined, 'bins', '/a b', '/\t/elsewhere'])(
    'turns %j into the board',
    (wanted) => {
      expect(ownPath(wanted)).toBe('/');
    },
  );
});

describe('pageClass()', () => {
  it('knows bin-side pages', () => {
    expect([pageClass('/bins/x/log'), pageClass('/log'), pageClass('/'), pageClass('/bins/x'), pageClass('/season')]).toEqual([
      'field',
      'field',
      '',
      '',
      '',
    ]);
  });
});
