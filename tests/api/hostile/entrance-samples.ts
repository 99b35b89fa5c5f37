import type { RouteName } from '@middenry/contract';
import { deleteCredentials, insertCredential } from '../../../apps/api/src/db/repositories/credential.ts';
import { insertDeviceCode } from '../../../apps/api/src/db/repositories/device-code.ts';
import { insertInvite } from '../../../apps/api/src/db/repositories/invite.ts';
import { insertLink } from '../../../apps/api/src/db/repositories/link.ts';
import { hashPassword } from '../../../apps/api/src/services/password.ts';
import { hashOf, nameOfId } from '../../../apps/api/src/services/secret.ts';
import { bytesOf, hotp } from '../../../apps/api/src/services/totp.ts';
import { freshId, PASSWORD, PEOPLE, type PersonKey, SITES } from '../../cast.ts';
import type { Make } from './sample.ts';
import type { Stage } from './stage.ts';

const TOKEN = 'an-invite-that-nobody-else-has-0123456789ab';
const INVITE = '0192f000-0000-7000-8000-0000000a0001';
const LINK = '0192f000-0000-7000-8000-0000000a0003';
const CODE_ID = '0192f000-0000-7000-8000-0000000a0002';
const TOTP_SECRET = 'GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ';
const STEP_MS = 30_000;

function invite({ cast }: Stage): void {
  const at = cast.clock.at.toISOString();
  const row = { id: INVITE, name: null, personId: null, role: 'volunteer', siteIds: [SITES.meadow], createdAt: at } as const;
  insertInvite(cast.store, { ...row, tokenHash: hashOf(TOKEN), createdBy: PEOPLE.owner.id, expiresAt: '2026-12-09T10:00:00.000Z' });
}

function link({ cast }: Stage): void {
  const row = { id: LINK, kind: 'board', siteId: null, label: '', createdAt: cast.clock.at.toISOString() } as const;
  insertLink(cast.store, { ...row, tokenHash: hashOf(TOKEN), createdBy: PEOPLE.owner.id });
}

function deviceCode({ cast }: Stage): void {
  const personId = PEOPLE.volunteer.id;
  const at = cast.clock.at.toISOString();
  const row = { id: CODE_ID, personId, codeHash: hashOf(CODE_ID, '123456'), createdBy: personId, sessionId: null, createdAt: at };
  insertDeviceCode(cast.store, { ...row, expiresAt: '2026-11-25T10:10:00.000Z' });
}

export async function password({ cast }: Stage, who: PersonKey | null): Promise<void> {
  if (who === null) return;
  const secret = await hashPassword(PASSWORD);
  insertCredential(cast.store, { personId: PEOPLE[who].id, kind: 'password', secret, createdAt: cast.clock.at.toISOString() });
}

/** The coordinators of the cast have theirs on; to start anew it must be off. */
export function withoutTotp({ cast }: Stage, who: PersonKey | null): void {
  if (who !== null) deleteCredentials(cast.store, PEOPLE[who].id, 'totp');
}

function waitingTotp({ cast }: Stage, who: PersonKey | null): void {
  if (who === null) return;
  insertCredential(cast.store, { personId: PEOPLE[who].id, kind: 'totp', secret: TOTP_SECRET, createdAt: cast.clock.at.toISOString() });
}

/** The id of a session that this person has open. */
function sessionOf({ cast }: Stage, who: PersonKey): string {
  cast.cookie(who);
  return cast.store.sqlite.prepare('SELECT id FROM sign_in_session WHERE person_id = ?').pluck().get(PEOPLE[who].id) as string;
}

const beginning = (code: string): Record<string, unknown> => ({
  code,
  programme: { name: 'Orchard End', timeZone: 'Europe/London', units: 'metric', locale: 'en-GB' },
  coordinator: { id: freshId(), name: 'Wanda Reed', email: 'wanda@example.org', password: PASSWORD },
  site: { id: freshId(), name: 'Orchard' },
  bins: [
    {
      id: freshId(),
      code: 'O1',
      name: 'First tote',
      kind: 'tote',
      areaM2: 0.2,
      depthM: 0.35,
      zones: 2,
      startedOn: '2026-11-01',
      wormsKg: 0.5,
      bedWaterKg: 4,
      bed: [{ materialId: 'cardboard_corrugated', massKg: 2 }],
    },
  ],
});

export const entranceSamples = {
  readSetup: () => ({ who: null, url: '/api/setup' }),
  beginProgramme: ({ cast }) => ({
    who: null,
    url: '/api/setup',
    body: beginning(cast.setupWords),
    ready: () => void cast.store.sqlite.prepare('DELETE FROM programme').run(),
  }),
  readEvents: () => ({ who: 'pupil', url: '/api/events?once=true' }),
  readAudit: () => ({ who: 'coordinator', url: '/api/audit?limit=5&before=1000' }),
  readKeep: () => ({ who: 'coordinator', url: '/api/keep' }),
  readStatus: () => ({ who: 'coordinator', url: '/api/status' }),
  readExport: () => ({ who: 'coordinator', url: '/api/export.zip' }),
  // Four days on, so that the demonstration is old.
  renewDemonstration: () => ({ who: 'coordinator', url: '/api/demonstration', body: {}, at: '2026-11-29T10:00:00.000Z' }),
  addBackup: () => ({ who: 'coordinator', url: '/api/keep/backups', body: {} }),
  listLinks: () => ({ who: 'coordinator', url: '/api/links' }),
  addLink: () => ({
    who: 'coordinator',
    url: '/api/links',
    body: { id: freshId(), kind: 'board', siteId: SITES.meadow, label: 'Notice board' },
  }),
  revokeLink: () => ({ who: 'coordinator', url: `/api/links/${LINK}`, params: { id: LINK }, ready: link }),
  readLinkedBoard: () => ({ who: null, url: '/api/linked-boards', body: { token: TOKEN }, ready: link }),
  listInvites: () => ({ who: 'coordinator', url: '/api/invites' }),
  addInvite: () => ({
    who: 'coordinator',
    url: '/api/invites',
    body: { id: freshId(), name: 'Hester Vane', role: 'site-lead', siteIds: [SITES.meadow] },
  }),
  revokeInvite: () => ({ who: 'coordinator', url: `/api/invites/${INVITE}`, params: { id: INVITE }, ready: invite }),
  readInviteCard: () => ({ who: null, url: '/api/invite-cards', body: { token: TOKEN }, ready: invite }),
  useInvite: () => ({
    who: null,
    url: '/api/session/invite',
    body: { token: TOKEN, name: 'Hester Vane', deviceLabel: 'Phone' },
    ready: invite,
  }),
  listDevices: () => ({
    who: 'volunteer',
    url: `/api/devices?personId=${PEOPLE.volunteer.id}`,
    notTheirs: [{ who: 'volunteer', url: `/api/devices?personId=${PEOPLE.otherVolunteer.id}` }],
  }),
  endDevice: (stage) => {
    const id = sessionOf(stage, 'volunteer');
    return {
      who: 'volunteer',
      url: `/api/devices/${id}`,
      params: { id },
      notTheirs: [{ who: 'otherVolunteer', url: `/api/devices/${id}` }],
    };
  },
  addDeviceCode: () => ({
    who: 'volunteer',
    url: '/api/device-codes',
    body: { personId: PEOPLE.volunteer.id },
    notTheirs: [{ who: 'volunteer', url: '/api/device-codes', body: { personId: PEOPLE.otherVolunteer.id } }],
  }),
  useDeviceCode: () => ({
    who: null,
    url: '/api/session/device',
    body: { code: `${nameOfId(CODE_ID, 4)} 123 456`, deviceLabel: 'Tablet' },
    ready: deviceCode,
  }),
  changePassword: () => ({ who: 'volunteer', url: '/api/password', body: { password: PASSWORD } }),
  startTotp: () => ({ who: 'volunteer', url: '/api/totp', body: {}, ready: withoutTotp }),
  confirmTotp: ({ cast }) => ({
    who: 'volunteer',
    url: '/api/totp',
    body: { code: hotp(bytesOf(TOTP_SECRET), Math.floor(cast.clock.at.getTime() / STEP_MS)) },
    ready: waitingTotp,
  }),
  endTotp: () => ({ who: 'volunteer', url: '/api/totp', body: { password: PASSWORD }, ready: password }),
} satisfies Partial<Record<RouteName, Make>>;
