import { basename } from 'node:path';
import type { AuditLine, Backup, Keep } from '@middenry/contract';
import type * as z from 'zod';
import type { Context, Signed } from '../context.ts';
import type { BackupFile } from '../db/keep/backup.ts';
import { listAudit } from '../db/repositories/audit.ts';
import { write } from '../db/store.ts';
import { refuse } from '../refusal.ts';
import { isOldDemo } from './demo-age.ts';
import type { Keeper } from './keeper.ts';

export const backupShape = ({ file, manifest }: BackupFile): z.output<typeof Backup> => ({
  file: basename(file),
  madeAt: manifest.madeAt,
  bytes: manifest.bytes,
  kind: manifest.kind,
});

/** Makes a backup at once; the line about it is written first, so that the copy holds it. */
export async function backUpNow(context: Signed): Promise<z.output<typeof Backup>> {
  const keeper = keeperIn(context);
  write(context.store, () => context.audit('backup-asked-for'));
  try {
    return backupShape(await keeper.backUp('asked-for'));
  } catch {
    throw refuse('unavailable', { detail: 'The backup could not be made; the page about keeping says why. Nothing else is touched.' });
  }
}

export function auditPage(
  context: Signed,
  before: number | undefined,
  limit: number,
): { items: z.output<typeof AuditLine>[]; more: boolean } {
  const lines = listAudit(context.store, before, limit + 1);
  const items = lines.slice(0, limit).map(({ personId, name, detail, ...rest }) => ({
    ...rest,
    by: personId === null ? null : { id: personId, name: name ?? '' },
    detail: { ...detail },
  }));
  return { items, more: lines.length > limit };
}

/** Whoever looks after the store in this process; without one there is nothing to tell. */
export function keeperIn(context: Context): Keeper {
  if (context.keeper === undefined) throw refuse('unavailable', { detail: 'Nobody looks after backups in this process.' });
  return context.keeper;
}

export function keepShape(context: Context): z.output<typeof Keep> {
  const { backups, ...status } = keeperIn(context).status();
  return {
    ...status,
    lastBackup: backups[0] === undefined ? null : backupShape(backups[0]),
    damage: context.soundness?.damage() ?? null,
    backups: backups.length,
    demoIsOld: isOldDemo(context.store, context.now),
  };
}
