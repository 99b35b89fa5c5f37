/** What the people of one bin did and saw, day by day: the story as requests, without the ids of the store. */
import { addDays } from '../apps/api/src/services/local-time.ts';
import { caring, onceIn } from './caring.ts';
import { feeding } from './feeding.ts';
import { keeperOf } from './keeper.ts';
import { check, harvest } from './looking.ts';
import { type Act, inTrouble, type Scene, TROUBLE_CHECK_DAYS, TROUBLE_FEED_DAYS, type Visit } from './scene.ts';

/** People are away for a fortnight now and then, never just now. */
const AWAY_FROM_DAY = 150;
const AWAY_DAYS = 13;
const SKIPPED_VISITS = 0.08;

export function actsOf(scene: Scene): Act[] {
  const { story, today, chance } = scene;
  const keeper = keeperOf(story, addDays(today, -story.startedDaysAgo));
  const acts: Act[] = [];
  let feedIn = 1;
  let checkIn = 3;
  for (let daysAgo = story.startedDaysAgo - 1; daysAgo >= 0; daysAgo--) {
    const visit: Visit = { on: addDays(today, -daysAgo), daysAgo, view: keeper.view(), weekKg: keeper.weekKg() };
    const done: Act[] = onceIn(scene, visit);
    if (isKept(scene, daysAgo)) {
      if (isFeedDay(story, daysAgo, --feedIn)) {
        feedIn = story.feedEveryDays + chance.whole(-1, 1);
        if (inTrouble(story, daysAgo) || !chance.happens(SKIPPED_VISITS)) done.push(...feeding(scene, visit));
      }
      if (--checkIn <= 0 || isTroubleCheck(story, daysAgo)) {
        checkIn = story.checkEveryDays + chance.whole(-1, 1);
        done.push(check(scene, visit), ...caring(scene, visit), ...harvest(scene, visit));
      }
    }
    acts.push(...done);
    keeper.pass(done.flatMap(({ event }) => event ?? []));
  }
  return acts;
}

/** Usually every few days; when trouble is brewing on the days of its story. */
function isFeedDay(story: Scene['story'], daysAgo: number, feedIn: number): boolean {
  const days = story.trouble === undefined || !inTrouble(story, daysAgo) ? undefined : TROUBLE_FEED_DAYS[story.trouble];
  return days === undefined ? feedIn <= 0 : days.includes(daysAgo);
}

const isTroubleCheck = (story: Scene['story'], daysAgo: number): boolean =>
  story.trouble !== undefined && (TROUBLE_CHECK_DAYS[story.trouble] ?? []).includes(daysAgo);

/** Away for a fortnight once; and nobody goes to the unseen bin any more. */
const isKept = (scene: Scene, daysAgo: number): boolean =>
  !(daysAgo > AWAY_FROM_DAY && daysAgo <= AWAY_FROM_DAY + AWAY_DAYS) &&
  (scene.story.trouble !== 'unseen' || !inTrouble(scene.story, daysAgo));
