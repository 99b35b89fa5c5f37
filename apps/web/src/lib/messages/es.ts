import { field } from './es/field.ts';
import { leads } from './es/leads.ts';
import { others } from './es/others.ts';
import type { Messages } from './shape.ts';

export const es = { ...field, ...others, ...leads } satisfies Messages;
