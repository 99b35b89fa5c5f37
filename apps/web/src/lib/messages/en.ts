import { errors } from './en/errors.ts';
import { figures } from './en/figures.ts';
import { folk } from './en/folk.ts';
import { intake } from './en/intake.ts';
import { mailing } from './en/mailing.ts';
import { pages } from './en/pages.ts';
import { rotaWords } from './en/rota.ts';
import { science } from './en/science.ts';
import { told } from './en/told.ts';
import { upkeep } from './en/upkeep.ts';
import { work } from './en/work.ts';

export const en = {
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
} as const;
