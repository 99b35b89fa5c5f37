import { describe, expect, it } from 'vitest';
import { pageClass } from './page-class.ts';
import { ownPath, withNext } from './paths.ts';

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

describe('withNext()', () => {
  it('comes back as the page it named, and names the board by saying nothing', () => {
    const through = withNext('/sign-in', '/b/T1?x=1');
    expect(ownPath(new URL(through, 'http://a').searchParams.get('next'))).toBe('/b/T1?x=1');
    expect(withNext('/sign-in', '/')).toBe('/sign-in');
  });
});

describe('pageClass()', () => {
  it('knows bin-side pages', () => {
    expect([
      pageClass('/bins/x/log'),
      pageClass('/log'),
      pageClass('/find'),
      pageClass('/b/T1'),
      pageClass('/'),
      pageClass('/bins/x'),
      pageClass('/season'),
    ]).toEqual(['field', 'field', 'field', 'field', '', '', '']);
  });
});
