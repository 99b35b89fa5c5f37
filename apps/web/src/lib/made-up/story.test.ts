import { isMaterialId, MADE_UP_BEDS, MADE_UP_DAYS, MADE_UP_SIZES, MADE_UP_WORMS, playMadeUp } from '@middenry/domain';
import { describe, expect, it } from 'vitest';
import { ACT, WATCH } from '../what-if/shown-quantities.ts';
import * as choices from './choices.ts';
import { happeningsOf, troublesOn } from './happenings.ts';
import { BEGINNING, FOODS, goOn, queryOfStory, readStory, STARTS, type Start, type Story } from './story.ts';

const read = (query: string) => readStory(new URLSearchParams(query));
const form = (query: string) => new URLSearchParams(query);
const lastOf = (story: Story) => playMadeUp(story, story.day).at(-1)!;

describe('the story of a made-up bin', () => {
  it('offers what the domain knows, and foods of its catalogue', () => {
    expect({ ...choices }).toEqual({ MADE_UP_BEDS, MADE_UP_DAYS, MADE_UP_SIZES, MADE_UP_WORMS });
    expect(Object.values(FOODS).filter((food) => !isMaterialId(food))).toEqual([]);
  });

  it('stands in the address whole, and comes back as it was', () => {
    const query = 'size=large&worms=many&air=25&story=0f4g_0c0.2_3l_3o50_9s1_9w3_12t-5&day=30';
    expect(queryOfStory(read(query))).toBe(query);
    expect(queryOfStory(BEGINNING)).toBe('');
    for (const start of Object.values(STARTS)) expect(queryOfStory(read(start))).toBe(start);
  });

  it('nonsense is as if it had not been said, and too much is the most there is', () => {
    expect(read('size=huge&air=warm&story=x_1z3_-2f1_99f_3fnone&day=often').moves.every(({ foodKg }) => foodKg === 0)).toBe(true);
    expect(read('size=huge&day=-4')).toEqual(BEGINNING);
    expect(read('story=99f900_0t99&day=900')).toMatchObject({
      day: 84,
      moves: [
        { day: 0, airC: 38 },
        { day: 83, foodKg: 20 },
      ],
    });
  });

  it('goes on from the day that is looked at: later deeds are gone, and nothing done leaves no trace', () => {
    const story = read('story=0f1_7f1_14f1&day=21');
    expect(queryOfStory(goOn(story, form('on=7')))).toBe('story=0f1_7f1_14f1&day=28');
    const earlier = { ...story, day: 7 };
    expect(queryOfStory(goOn(earlier, form('feed=12&kind=m&spread=all&card=1&loosen=on&out=50&to=-5&on=1')))).toBe(
      'story=0f1_7s12m_7c1_7l_7o50_7t-5&day=8',
    );
    expect(goOn(read('day=80'), form('on=14')).day).toBe(84);
  });
});

describe('what comes of it', () => {
  const RUINED: Readonly<Record<Exclude<Start, 'well'>, readonly [trouble: string, rescue: string]>> = {
    heap: ['airless', 'out=50&loosen=on&card=1'],
    soup: ['wet', 'card=3'],
    grass: ['airless', 'out=100&card=3&water=1'],
    desert: ['dry', 'water=3&to=18'],
    frost: ['cold', 'to=12'],
  };

  it('the well bin is well', () => {
    expect(lastOf(read(STARTS.well)).trouble).toBeLessThan(WATCH);
  });

  it.each(Object.entries(RUINED))(
    '%s is ruined, stays so if nothing is done, and can be rescued in two weeks',
    (start, [trouble, rescue]) => {
      const ruined = read(STARTS[start as Start]);
      const then = lastOf(ruined);
      expect(then.trouble).toBeGreaterThanOrEqual(ACT);
      expect(troublesOn(then)).toContain(trouble);
      expect(lastOf(goOn(ruined, form('on=1'))).trouble).toBeGreaterThanOrEqual(ACT);
      expect(lastOf(goOn(ruined, form(`${rescue}&on=14`))).trouble).toBeLessThan(WATCH);
    },
  );

  it('tells when a trouble begins and ends, and when the worms are gone', () => {
    const rescued = goOn(read(STARTS.soup), form('card=3&on=7'));
    const wet = happeningsOf(playMadeUp(rescued, rescued.day)).filter((each) => 'signal' in each && each.signal === 'wet');
    expect(wet.map(({ what }) => what)).toEqual(['begins', 'ends']);
    expect(wet[1]?.day).toBeGreaterThan(7);
    const baked = read('story=0t38&day=21');
    expect(happeningsOf(playMadeUp(baked, 21)).map(({ what }) => what)).toEqual(expect.arrayContaining(['worms-halved', 'worms-gone']));
  });
});
