import * as z from 'zod';
import { Id, Instant, LocalDate, Role } from '../common.ts';
import { everyone, members, type RouteSpec } from '../route.ts';

export const UNIT_SYSTEMS = ['metric', 'us'] as const;

export const Session = z.object({
  /** null when nobody is signed in. */
  person: z
    .object({
      id: Id,
      name: z.string(),
      role: Role,
      owner: z.boolean(),
      siteIds: z.array(Id).describe('Sites this person belongs to; empty means all.'),
      unreadMessages: z.int(),
      secondStepMissing: z.boolean().describe('a coordinator who has not yet set up an authenticator, and may do nothing else before'),
    })
    .nullable(),
  programme: z
    .object({
      id: Id,
      name: z.string(),
      isDemo: z.boolean(),
      demoIsOld: z.boolean().describe('a demonstration older than three days, which may be made anew'),
      timeZone: z.string(),
      units: z.enum(UNIT_SYSTEMS),
      locale: z.string(),
    })
    .nullable()
    .describe('null before the programme has been set up'),
  damagedSince: Instant.nullable().describe('the store is damaged since then: it is read, and nothing is saved'),
  /** Today in the programme's zone, by the server's clock. */
  today: LocalDate,
  demoEntry: z.boolean().describe('one-tap entry is open here'),
});
export type Session = z.infer<typeof Session>;

export const SignIn = z.object({
  email: z.string().trim().min(3).max(254),
  password: z.string().min(1).max(256),
  code: z.string().trim().max(20).optional().describe('of the authenticator, or a recovery code'),
});
export const DemoEntry = z.object({ as: z.enum(['coordinator', 'volunteer']) });

export const sessionRoutes = [
  {
    method: 'GET',
    path: '/api/session',
    name: 'readSession',
    summary: 'Who is signed in here',
    tag: 'session',
    access: everyone,
    own: 'nothing',
    answer: Session,
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/session',
    name: 'signIn',
    summary: 'Sign in with a password',
    tag: 'session',
    access: everyone,
    own: 'nothing',
    body: SignIn,
    answer: Session,
    status: 201,
  },
  {
    method: 'POST',
    path: '/api/session/demo',
    name: 'enterDemo',
    summary: 'Look round the demonstration',
    tag: 'session',
    access: everyone,
    own: 'nothing',
    body: DemoEntry,
    answer: Session,
    status: 201,
  },
  {
    method: 'DELETE',
    path: '/api/session',
    name: 'signOut',
    summary: 'End this session',
    tag: 'session',
    access: members,
    own: 'session',
    beforeSecondStep: true,
    status: 204,
  },
] as const satisfies readonly RouteSpec[];
