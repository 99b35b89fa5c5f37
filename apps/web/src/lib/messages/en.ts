import { errors } from './en/errors.ts';
import { pages } from './en/pages.ts';
import { science } from './en/science.ts';

export const en = { ...science, errors, ...pages } as const;
