import type { Entry } from '../bin/types.ts';
import type { Format } from '../format/format.ts';
import { words } from '../messages/index.ts';

type Expected = NonNullable<Extract<Entry, { kind: 'harvest' }>['expected']>;

/** What the model had of castings in the bin before it saw the weight of a harvest. */
export const expectedWords = ({ lowKg, midKg, highKg }: Expected, f: Format): string =>
  words.deeds.harvestExpected(f.mass(midKg), f.massValue(lowKg), f.mass(highKg));
