// Spanish. Speak to the reader as "tú", in short sentences an eleven-year-old can read, and name nobody's
// gender: "guía", "coordinación", "voluntariado". One word for one thing, as docs/reference/words.md has it.
import type { ForField } from '../shape.ts';
import { errors } from './errors.ts';
import { figures } from './figures.ts';
import { harvest } from './harvest.ts';
import { noting } from './noting.ts';
import { pages } from './pages.ts';
import { photos } from './photos.ts';
import { science } from './science.ts';

/** What the log page and the frame around it say: fetched by every phone, and kept small (B26). */
export const field = {
  ...science,
  errors,
  ...pages,
  noting,
  harvest,
  figures,
  photos,
} satisfies ForField;
