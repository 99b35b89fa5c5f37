/** Several servers on one database want the last place of a shift at the same moment: asked, offered, or just come. */
import { type ChildProcess, fork } from 'node:child_process';
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { insertProposal, insertRotaRun, inviteProposal } from '../../../apps/api/src/db/repositories/rota.ts';
import { write } from '../../../apps/api/src/db/store.ts';
import { type Cast, freshId, PEOPLE, type PersonKey, SITES } from '../../cast.ts';

const RACER = new URL('./last-place-racer.ts', import.meta.url).pathname;
/** Beside the packages, so that those with machine code in them are found. */
const BUNDLE = new URL(`../../../node_modules/.cache/middenry/last-place-${process.pid}.mjs`, import.meta.url).pathname;
const REQUIRE = "import { createRequire as requireFrom } from 'node:module'; const require = requireFrom(import.meta.url);";

/** Who was asked, who waits, and two who come by themselves: a process each. */
export const RACERS = { asked: 'volunteer', waiting: 'otherVolunteer', comes: 'siteLead', comesToo: 'coordinator' } as const;
export type RacerKey = keyof typeof RACERS;
const KEYS = Object.keys(RACERS) as RacerKey[];

export interface RaceRequest {
  readonly way: 'statement' | 'naive';
  readonly at: string;
  readonly cookie: string;
  readonly url: string;
  readonly body: object;
}

export interface RaceAnswer {
  readonly status: number;
  readonly code?: string;
  readonly waitingCount?: number;
  readonly nearest?: number;
}

export interface Round {
  readonly answers: Readonly<Record<RacerKey, RaceAnswer>>;
  readonly won: readonly RacerKey[];
  /** Who stands on the shift afterwards, by the store. */
  readonly onShift: readonly string[];
  readonly invitation: string;
}

export interface Stage {
  readonly shiftId: string;
  readonly invitationId: string;
}

export class LastPlace {
  readonly cast: Cast;
  readonly #racers: readonly ChildProcess[];

  private constructor(cast: Cast, racers: readonly ChildProcess[]) {
    this.cast = cast;
    this.#racers = racers;
  }

  static async open(cast: Cast): Promise<LastPlace> {
    // Four times through tsx costs four times as long as one bundle.
    await build({
      ...{ entryPoints: [RACER], outfile: BUNDLE, bundle: true, platform: 'node', format: 'esm', target: 'node20' },
      ...{ external: ['better-sqlite3', '@node-rs/argon2', 'highs', 'nodemailer'], banner: { js: REQUIRE }, logLevel: 'error' },
    });
    const racers = KEYS.map(() => fork(BUNDLE, [join(cast.dir, 'cast.db'), cast.dir], { execArgv: [] }));
    await Promise.all(racers.map(nextMessage));
    return new LastPlace(cast, racers);
  }

  close(): void {
    for (const racer of this.#racers) racer.disconnect();
    rmSync(BUNDLE, { force: true });
  }

  /** A shift of one place that somebody was asked for; with `offered` it came free while somebody else waited for it. */
  async stage({ offered, ...when }: { localDate: string; localTime: string; offered: boolean }): Promise<Stage> {
    const { call, store, clock } = this.cast;
    const shiftId = freshId();
    const done = async (answer: Promise<{ status: number; text: string; body: { signUps: { id: string; mine: boolean }[] } }>) => {
      const { status, text, body } = await answer;
      if (status >= 300) throw new Error(`Cannot set the stage: ${text}`);
      return body;
    };
    await done(call('owner', 'POST', '/api/shifts', { id: shiftId, siteId: SITES.meadow, title: 'Last', ...when, minutes: 60, places: 1 }));
    if (offered) {
      const { signUps } = await done(call('owner', 'POST', `/api/shifts/${shiftId}/sign-ups`, { id: freshId() }));
      await done(call(RACERS.waiting, 'POST', `/api/shifts/${shiftId}/waiting`, { id: freshId() }));
      await done(call('owner', 'DELETE', `/api/shifts/${shiftId}/sign-ups/${signUps.find(({ mine }) => mine)!.id}`));
    }
    const [runId, invitationId, madeAt] = [freshId(), freshId(), clock.at.toISOString()];
    write(store, () => {
      const days = { from: when.localDate, to: when.localDate };
      insertRotaRun(store, { id: runId, madeBy: PEOPLE.owner.id, madeAt, ...days, siteIds: '[]', seconds: 1 });
      const reason = JSON.stringify({ why: [] });
      insertProposal(store, { id: invitationId, runId, shiftId, personId: PEOPLE[RACERS.asked].id, skill: null, reason });
      inviteProposal(store, invitationId, { at: madeAt, until: '2026-12-31T00:00:00.000Z' });
    });
    return { shiftId, invitationId };
  }

  /** All of them at once; `at` may give a process another moment than the rest. */
  async race({ shiftId, invitationId }: Stage, way: RaceRequest['way'], at: Partial<Record<RacerKey, string>> = {}): Promise<Round> {
    const { cast } = this;
    const requests = KEYS.map((key): RaceRequest => {
      const url = key === 'asked' ? `/api/invitations/${invitationId}/accept` : `/api/shifts/${shiftId}/sign-ups`;
      const now = at[key] ?? cast.clock.at.toISOString();
      return { way, at: now, cookie: cast.cookie(RACERS[key]), url, body: { id: freshId() } };
    });
    const answered = Promise.all(this.#racers.map(nextMessage));
    for (const [index, racer] of this.#racers.entries()) racer.send(requests[index]!);
    const answers = Object.fromEntries((await answered).map((answer, index) => [KEYS[index]!, answer])) as Round['answers'];
    const read = (sql: string, id: string) => cast.store.sql(sql).pluck().all(id) as string[];
    return {
      answers,
      won: KEYS.filter((key) => answers[key].status === 201),
      onShift: read('SELECT person_id FROM sign_up WHERE shift_id = ? AND given_back_at IS NULL', shiftId),
      invitation: read('SELECT state FROM rota_proposal WHERE id = ?', invitationId)[0]!,
    };
  }
}

export const idOf = (key: RacerKey): string => PEOPLE[RACERS[key] satisfies PersonKey].id;

function nextMessage(racer: ChildProcess): Promise<RaceAnswer> {
  return new Promise((resolve, reject) => {
    const gone = (code: number | null) => reject(new Error(`a racer ended with ${code}`));
    racer.once('exit', gone);
    racer.once('message', (message) => {
      racer.off('exit', gone);
      resolve(message as RaceAnswer);
    });
  });
}
