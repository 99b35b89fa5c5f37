import type { Session } from '@middenry/contract';
import type { Context, Who } from '../context.ts';
import { countUnread } from '../db/repositories/message.ts';
import { findProgramme } from '../db/repositories/programme.ts';
import { isOldDemo } from './demo-age.ts';

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
            secondStepMissing: who.secondStepMissing,
          },
    programme:
      programme === undefined
        ? null
        : {
            id: programme.id,
            name: programme.name,
            isDemo: programme.isDemo,
            demoIsOld: isOldDemo(context.store, context.now),
            timeZone: programme.timeZone,
            units: programme.units,
            locale: programme.locale,
          },
    damagedSince: context.soundness?.damage()?.since ?? null,
    today: context.today(programme?.timeZone ?? 'UTC'),
    demoEntry: context.config.demoEntry && (programme?.isDemo ?? false),
  };
}
