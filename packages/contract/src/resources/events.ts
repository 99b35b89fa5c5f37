import * as z from 'zod';
import { members, type RouteSpec } from '../route.ts';

export const CHANGE_TOPICS = ['entry', 'bin', 'site', 'shift', 'stuff', 'people', 'programme', 'message'] as const;
/** One server-sent event: `id` is the change's number, `event` is `change`. `event: reset` means: too long away, read everything anew. */
export const ChangeEvent = z.object({
  topic: z.enum(CHANGE_TOPICS),
  subject: z.string().describe('entry: the bin; message: whose it is, told to them alone; otherwise the thing itself'),
});
export type ChangeEvent = z.infer<typeof ChangeEvent>;

export const eventsRoutes = [
  {
    method: 'GET',
    path: '/api/events',
    name: 'readEvents',
    summary: 'What changes, as server-sent events; resumes after Last-Event-ID',
    tag: 'events',
    access: members,
    own: 'nothing',
    query: z.object({ once: z.stringbool().optional().describe('say what was missed and end, for asking now and then') }),
    status: 200,
    contentType: 'text/event-stream',
  },
] as const satisfies readonly RouteSpec[];
