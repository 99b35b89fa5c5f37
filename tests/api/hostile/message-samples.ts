import type { RouteName } from '@middenry/contract';
import { insertMessage } from '../../../apps/api/src/db/repositories/message.ts';
import { freshId, PEOPLE } from '../../cast.ts';
import type { Make } from './sample.ts';

const message = {
  kind: 'digest',
  shiftId: null,
  facts: '{}',
  urgent: 0,
  madeAt: '2026-11-25T09:00:00.000Z',
  goodUntil: null,
};

/** What people are told, and how. */
export const messageSamples = {
  listMessages: () => ({ who: 'volunteer', url: '/api/messages?limit=20' }),
  readMessages: () => {
    const id = freshId();
    return {
      who: 'volunteer',
      url: '/api/messages/read',
      body: { ids: [id] },
      ready: ({ cast }, who) => {
        insertMessage(cast.store, { ...message, id, occasion: id, personId: PEOPLE[who ?? 'volunteer'].id });
      },
    };
  },
} satisfies Partial<Record<RouteName, Make>>;
