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
} as const;
