import type { ForOthers } from '../shape.ts';
import { ahead } from './ahead.ts';
import { around } from './around.ts';
import { asideWords } from './aside.ts';
import { asking } from './asking.ts';
import { binPhotos } from './bin-photos.ts';
import { carry } from './carry.ts';
import { castingsWords } from './castings.ts';
import { everyCaution } from './every-caution.ts';
import { everyError } from './every-error.ts';
import { folk } from './folk.ts';
import { handedWords } from './handed.ts';
import { kindWords } from './kinds.ts';
import { labelWords } from './labels.ts';
import { looking } from './looking.ts';
import { madeUpWords } from './made-up.ts';
import { mailing } from './mailing.ts';
import { ownDataWords } from './own-data.ts';
import { printing } from './printing.ts';
import { privacyWords } from './privacy.ts';
import { reasoning } from './reasoning.ts';
import { seasons } from './seasons.ts';
import { sighting } from './sighting.ts';
import { told } from './told.ts';
import { upkeep } from './upkeep.ts';
import { waiting } from './waiting.ts';
import { wallWords } from './wall.ts';
import { whatIfWords } from './what-if.ts';
import { work } from './work.ts';

/** What everybody may read on any other page. */
export const others = {
  errors: everyError,
  cautions: everyCaution,
  ...ahead,
  ...reasoning,
  ...looking,
  ...folk,
  ...whatIfWords,
  ...madeUpWords,
  ...upkeep,
  ...work,
  ...kindWords,
  carry,
  waiting,
  binPhotos,
  ...asking,
  ...mailing,
  ...labelWords,
  ...printing,
  ...around,
  ...told,
  ...seasons,
  ...wallWords,
  ...asideWords,
  ...sighting,
  ...castingsWords,
  ...ownDataWords,
  ...privacyWords,
  ...handedWords,
} satisfies ForOthers;
