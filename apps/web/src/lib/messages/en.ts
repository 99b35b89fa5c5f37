import { errors } from './en/errors.ts';
import { folk } from './en/folk.ts';
import { pages } from './en/pages.ts';
import { science } from './en/science.ts';

export const en = { ...science, errors, ...pages, ...folk } as const;
