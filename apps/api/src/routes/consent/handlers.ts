import type { BoundRoute } from '../../routing/route.ts';
import { giveConsent } from './give-consent.ts';
import { listConsentWordings } from './list-consent-wordings.ts';
import { listConsents } from './list-consents.ts';
import { listConsentsOf } from './list-consents-of.ts';
import { withdrawConsent } from './withdraw-consent.ts';

export const consentHandlers: readonly BoundRoute[] = [listConsents, listConsentsOf, listConsentWordings, giveConsent, withdrawConsent];
