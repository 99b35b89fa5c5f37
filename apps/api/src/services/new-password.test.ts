import { describe, expect, test } from 'vitest';
import { hashNewPassword } from './new-password.ts';

describe('hashNewPassword()', () => {
  // Lines of the list that common-passwords.data.ts names; the estimator alone gives each the mark that is enough.
  test.each(['LockingServi', 'xxPa33bq.aDNA', 'plextsofttm', '141312190296q', 'PLEXTSOFTTM'])(
    'E2: refuses %s, which is among the 100,000 most used',
    async (password) => {
      await expect(hashNewPassword(password, [])).rejects.toMatchObject({ code: 'password-guessable' });
    },
  );

  test('E2: takes one that nobody is known to use', async () => {
    expect(await hashNewPassword('plextsofttmq kettle drum', [])).toMatch(/^\$argon2id\$/);
  });
});
