import { field } from './es/field.ts';
import { flagWords } from './es/flags.ts';
import { leads } from './es/leads.ts';
import { others } from './es/others.ts';
import type { Messages } from './shape.ts';

export const es = { ...field, ...others, ...leads, ...flagWords } satisfies Messages;
