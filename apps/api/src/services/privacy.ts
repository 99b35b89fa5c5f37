import type { KeptKey, Privacy } from '@middenry/contract';
import type * as z from 'zod';
import type { Context } from '../context.ts';
import { BACKUP_DAYS } from '../db/keep/backup.ts';
import { RETENTION } from '../db/keep/retention.ts';

/** Read from what clears away, so that the page cannot promise what is not done (criteria C26). */
export function readPrivacy({ config }: Context): z.output<typeof Privacy> {
  const rows = RETENTION.map(({ key, days }): { what: KeptKey; days: number } => ({ what: key, days }));
  return { kept: [...rows, { what: 'backups', days: BACKUP_DAYS }], mail: config.mail !== undefined };
}
