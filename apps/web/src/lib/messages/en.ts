import { field } from './en/field.ts';
import { leads } from './en/leads.ts';
import { others } from './en/others.ts';

/** All of it, for the server and the tests; a browser fetches the parts by themselves. */
export const en = { ...field, ...others, ...leads } as const;
