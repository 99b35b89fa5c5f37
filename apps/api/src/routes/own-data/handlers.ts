import type { BoundRoute } from '../../routing/route.ts';
import { eraseMe } from './erase-me.ts';
import { erasePerson } from './erase-person.ts';
import { readPersonData } from './read-person-data.ts';
import { readPrivacy } from './read-privacy.ts';

export const ownDataHandlers: readonly BoundRoute[] = [readPersonData, eraseMe, erasePerson, readPrivacy];
