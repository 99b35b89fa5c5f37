import { resetOwner } from '../services/reset-owner.ts';
import { newCode } from '../services/secret.ts';
import type { Command } from './command.ts';
import { placeOf, withStore } from './place.ts';

const PASSWORD_LENGTH = 20;

export const resetOwnerCommand: Command = {
  name: 'reset-owner',
  usage: 'reset-owner [E-MAIL]',
  words: 'Lets an owner who is locked out back in, without e-mail: a new password, no second step, every device signed out.',
  run(args) {
    const { config, rest } = placeOf(args);
    return withStore(config, async (store) => {
      const password = newCode(PASSWORD_LENGTH);
      const { name, email } = await resetOwner(store, new Date(), rest[0], password);
      console.log(`${name} signs in as ${email} with the password ${password}. Change it after signing in.`);
      return 0;
    });
  },
};
