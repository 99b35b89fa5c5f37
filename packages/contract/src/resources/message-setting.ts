/** How somebody wants to be told: reminders, quiet hours, and mail to an address that is shown to be theirs. */
import * as z from 'zod';
import { LocalTime } from '../common.ts';
import { grownUps, type RouteSpec } from '../route.ts';

export const LANGUAGES = ['en', 'es'] as const;
export const Languages = z.enum(LANGUAGES);
export type Language = z.infer<typeof Languages>;

const settingShape = {
  remindDay: z.boolean().describe('the day before'),
  remindHours: z.boolean().describe('two hours before'),
  digest: z.boolean().describe('one message a day of what there is to see to; for coordinators'),
  quietFrom: LocalTime.describe('local time of the site; the same as quietTo: no quiet hours'),
  quietTo: LocalTime,
  mail: z.boolean().describe('by mail too; only with a confirmed address'),
  language: Languages.describe('of mails, of my calendar and of texts to copy; before it is chosen, the programme’s'),
};
export const MessageSetting = z.object({
  ...settingShape,
  address: z.string().nullable(),
  confirmed: z.boolean(),
  mailPossible: z.boolean().describe('a mail server is set up'),
});
export type MessageSetting = z.infer<typeof MessageSetting>;
export const MessageSettingChange = z.object(settingShape).partial().strict();
export const AddressNew = z.object({ address: z.email({ error: 'must be a mail address' }).max(254) }).strict();
export const AddressConfirm = z
  .object({
    code: z
      .string()
      .trim()
      .regex(/^\d{6}$/, 'must be six digits'),
  })
  .strict();

export const messageSettingRoutes = [
  {
    method: 'GET',
    path: '/api/message-setting',
    name: 'readMessageSetting',
    summary: 'How I want to be told',
    tag: 'message',
    access: grownUps,
    own: 'nothing',
    answer: MessageSetting,
    status: 200,
  },
  {
    method: 'PATCH',
    path: '/api/message-setting',
    name: 'changeMessageSetting',
    summary: 'Change reminders, quiet hours, mail on or off',
    tag: 'message',
    access: grownUps,
    own: 'nothing',
    body: MessageSettingChange,
    answer: MessageSetting,
    status: 200,
  },
  {
    method: 'PUT',
    path: '/api/message-setting/address',
    name: 'putMailAddress',
    summary: 'Give a mail address; a six-digit code goes to it',
    tag: 'message',
    access: grownUps,
    own: 'nothing',
    body: AddressNew,
    answer: MessageSetting,
    status: 200,
  },
  {
    method: 'POST',
    path: '/api/message-setting/address/confirm',
    name: 'confirmMailAddress',
    summary: 'Show that the address is mine; mail is on from then',
    tag: 'message',
    access: grownUps,
    own: 'nothing',
    body: AddressConfirm,
    answer: MessageSetting,
    status: 200,
  },
  {
    method: 'DELETE',
    path: '/api/message-setting/address',
    name: 'dropMailAddress',
    summary: 'Forget my mail address',
    tag: 'message',
    access: grownUps,
    own: 'nothing',
    answer: MessageSetting,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
