// Spanish. Speak to the reader as "tú", in short sentences an eleven-year-old can read, and name nobody's
// gender: "guía", "coordinación", "voluntariado". One word for one thing, as docs/reference/words.md has it.
import { errors } from './es/errors.ts';
import { figures } from './es/figures.ts';
import { folk } from './es/folk.ts';
import { intake } from './es/intake.ts';
import { mailing } from './es/mailing.ts';
import { pages } from './es/pages.ts';
import { rotaWords } from './es/rota.ts';
import { science } from './es/science.ts';
import { told } from './es/told.ts';
import { upkeep } from './es/upkeep.ts';
import { work } from './es/work.ts';
import type { Messages } from './shape.ts';

export const es = {
  ...science,
  errors,
  ...pages,
  ...folk,
  ...upkeep,
  ...work,
  intake,
  ...rotaWords,
  ...mailing,
  ...told,
  figures,
} satisfies Messages;
