import { route } from '../../routing/route.ts';
import { listConsents as list } from '../../services/consent/consents.ts';

export const listConsents = route('listConsents', list);
