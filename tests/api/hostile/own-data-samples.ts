import type { RouteName } from '@middenry/contract';
import { PASSWORD, PEOPLE } from '../../cast.ts';
import { password, withoutTotp } from './entrance-samples.ts';
import type { Make } from './sample.ts';

export const ownDataSamples = {
  readPrivacy: () => ({ who: null, url: '/api/privacy' }),
  readPersonData: () => ({
    who: 'volunteer',
    url: `/api/people/${PEOPLE.volunteer.id}/data.zip`,
    params: { id: PEOPLE.volunteer.id },
    notTheirs: [{ who: 'volunteer', url: `/api/people/${PEOPLE.otherVolunteer.id}/data.zip` }],
  }),
  eraseMe: () => ({
    who: 'volunteer',
    url: '/api/me/erased',
    body: { password: PASSWORD },
    ready: async (stage, who) => {
      withoutTotp(stage, who);
      await password(stage, who);
    },
  }),
  erasePerson: () => ({ who: 'owner', url: `/api/people/${PEOPLE.disabled.id}`, params: { id: PEOPLE.disabled.id } }),
} satisfies Partial<Record<RouteName, Make>>;
