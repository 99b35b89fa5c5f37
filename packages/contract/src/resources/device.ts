/** Devices that are signed in, another device by a code, the password and the second step of a coordinator. */
import * as z from 'zod';
import { Empty, Id, Instant } from '../common.ts';
import { everyone, grownUps, owners, type RouteSpec } from '../route.ts';
import { IdParams } from './place.ts';
import { Session } from './session.ts';
import { Password } from './setup.ts';

export const SESSION_KINDS = ['password', 'device', 'pupil', 'demo'] as const;
export const Device = z.object({
  id: Id,
  personId: Id,
  kind: z.enum(SESSION_KINDS),
  label: z.string(),
  createdAt: Instant,
  lastSeenAt: Instant,
  expiresAt: Instant,
  here: z.boolean().describe('the device that asks'),
});
const SixDigits = z
  .string()
  .trim()
  .transform((text) => text.replace(/[\s-]/g, ''))
  .pipe(z.string().regex(/^\d{6}$/, 'must be six digits'));
/** Which request a code belongs to, then the code: wrong tries count against that request alone, so that no stranger can kill another's code. */
const RequestedDigits = z
  .string()
  .trim()
  .transform((text) => text.toUpperCase().replace(/[\s-]/g, ''))
  .pipe(z.string().regex(/^[2-9A-HJKMNP-Z]{4}\d{6}$/, 'must be four signs and six digits'));
export const DeviceCodeNew = z
  .object({ personId: Id.optional().describe('left out: myself; a coordinator may name somebody else') })
  .strict();
export const DeviceCode = z.object({
  code: z.string().describe('as it is typed on the other device: four signs that name this request, then six digits; shown once'),
  expiresAt: Instant,
});
export const DeviceCodeUse = z.object({ code: RequestedDigits, deviceLabel: z.string().trim().max(120).default('') }).strict();
export const PasswordChange = z
  .object({ current: z.string().max(256).optional().describe('needed when there is one'), password: Password })
  .strict();

export const TotpStart = z.object({
  secret: z.string().describe('base32, shown once'),
  uri: z.string().describe('otpauth address for a QR'),
});
export const TotpConfirm = z.object({ code: SixDigits }).strict();
export const TotpOn = z.object({ recoveryCodes: z.array(z.string()).describe('ten, each good once, shown once') });
export const TotpOff = z.object({ password: z.string().max(256) }).strict();

export const deviceRoutes = [
  {
    method: 'GET',
    path: '/api/devices',
    name: 'listDevices',
    summary: 'Where I am signed in',
    tag: 'device',
    access: owners,
    own: 'person',
    beforeSecondStep: true,
    query: z.object({ personId: Id.optional() }),
    answer: z.object({ items: z.array(Device) }),
    status: 200,
  },
  {
    method: 'DELETE',
    path: '/api/devices/:id',
    name: 'endDevice',
    summary: 'Sign a device out',
    tag: 'device',
    access: owners,
    own: 'session',
    beforeSecondStep: true,
    params: IdParams,
    status: 204,
  },
  {
    method: 'POST',
    path: '/api/device-codes',
    name: 'addDeviceCode',
    summary: 'Six digits for another device',
    tag: 'device',
    access: { ...grownUps, volunteer: 'own', 'site-lead': 'own' },
    own: 'person',
    body: DeviceCodeNew,
    answer: DeviceCode,
    status: 201,
  },
  {
    method: 'POST',
    path: '/api/session/device',
    name: 'useDeviceCode',
    summary: 'Sign this device in with six digits',
    tag: 'device',
    access: everyone,
    own: 'nothing',
    body: DeviceCodeUse,
    answer: Session,
    status: 201,
  },
  {
    method: 'PUT',
    path: '/api/password',
    name: 'changePassword',
    summary: 'Set or change my password',
    tag: 'device',
    access: grownUps,
    own: 'nothing',
    beforeSecondStep: true,
    body: PasswordChange,
    status: 204,
  },
  {
    method: 'POST',
    path: '/api/totp',
    name: 'startTotp',
    summary: 'Begin a second step with an authenticator',
    tag: 'device',
    access: grownUps,
    own: 'nothing',
    beforeSecondStep: true,
    body: Empty,
    answer: TotpStart,
    status: 201,
  },
  {
    method: 'PUT',
    path: '/api/totp',
    name: 'confirmTotp',
    summary: 'Turn the second step on with its first code',
    tag: 'device',
    access: grownUps,
    own: 'nothing',
    beforeSecondStep: true,
    body: TotpConfirm,
    answer: TotpOn,
    status: 200,
  },
  {
    method: 'DELETE',
    path: '/api/totp',
    name: 'endTotp',
    summary: 'Turn the second step off',
    tag: 'device',
    access: grownUps,
    own: 'nothing',
    body: TotpOff,
    status: 204,
  },
] as const satisfies readonly RouteSpec[];
