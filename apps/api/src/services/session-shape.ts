import type { Session } from '@middenry/contract';
import type { Context, Who } from '../context.ts';
import { countUnread } from '../db/repositories/message.ts';
import { findProgramme } from '../db/repositories/programme.ts';
import { hasSecondStep } from './second-step.ts';

/** What the pages need to know about who is here and where. */
export function sessionShape(context: Context, who: Who | null): Session {
  const programme = findProgramme(context.store);
  return {
    person:
      who === null
        ? null
        : {
            id: who.personId,
            name: who.name,
            role: who.role,
            owner: who.owner,
            siteIds: [...who.siteIds],
            unreadMessages: countUnread(context.store, who.personId),
            secondStepMissing: who.role === 'coordinator' && who.sessionKind !== 'demo' && !hasSecondStep(context.store, who.personId),
          },
    programme:
      programme === undefined
        ? null
        : {
            id: programme.id,
            name: programme.name,
            isDemo: programme.isDemo,
            timeZone: programme.timeZone,
            units: programme.units,
            locale: programme.locale,
          },
    today: context.today(programme?.timeZone ?? 'UTC'),
    demoEntry: context.config.demoEntry && (programme?.isDemo ?? false),
  };
}
