import type { BoundRoute } from '../../routing/route.ts';
import { live } from './live.ts';
import { openapi } from './openapi.ts';
import { readStatus } from './read-status.ts';
import { ready } from './ready.ts';

export const systemHandlers: readonly BoundRoute[] = [live, ready, openapi, readStatus];
