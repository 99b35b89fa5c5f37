import { seasonJsonSchema } from '@middenry/contract';
import { route } from '../../routing/route.ts';

const text = `${JSON.stringify(seasonJsonSchema(), null, 2)}\n`;

export const readSeasonSchema = route('readSeasonSchema', () => text);
