import { createHash } from 'node:crypto';
import type { RouteName } from '@middenry/contract';
import { NO_ANSWERS } from '@middenry/domain';
import { insertSheetImport } from '../../../apps/api/src/db/repositories/sheet-import.ts';
import { type Cast, freshId, PEOPLE } from '../../cast.ts';
import { changed, type Make } from './sample.ts';

const CSV = 'Date,Bin,Food,Weight (kg)\n2026-07-05,T1,Apple,2\n2026-07-06,Z9,Apple,2\n';
const base64 = (text: string): string => Buffer.from(text).toString('base64');

/** As it is kept while it waits. */
export function makeSheetImport({ store }: Cast, id: string): void {
  const cells = JSON.stringify(
    CSV.trimEnd()
      .split('\n')
      .map((line) => line.split(',').map((text) => ({ text }))),
  );
  const headings = JSON.stringify(CSV.split('\n')[0]!.split(','));
  insertSheetImport(store, {
    ...{ id, kind: 'feedings', fileName: 'log.csv', sha256: createHash('sha256').update(CSV).digest('hex'), cells, headings },
    ...{ answers: JSON.stringify(NO_ANSWERS), personId: PEOPLE.owner.id, madeAt: '2026-11-25T09:00:00.000Z' },
  });
}

const one = (id: string) => ({ who: 'coordinator' as const, url: `/api/imports/${id}`, params: { id } });

export const importSamples = {
  listSheetImports: () => ({ who: 'coordinator', url: '/api/imports' }),
  addSheetImport: () => {
    const body = { id: freshId(), kind: 'feedings', fileName: 'log.csv', content: base64(CSV) };
    return {
      who: 'coordinator',
      url: '/api/imports',
      body,
      also: changed(body, {
        'a workbook that is none': { content: base64('PK and then nothing') },
        'a workbook with a password': { content: Buffer.from([0xd0, 0xcf, 0x11, 0xe0, 0, 0]).toString('base64') },
        'bytes of a program': { content: Buffer.from([0x7f, 0x45, 0x4c, 0x46, 1, 2, 3, 4]).toString('base64') },
        'nothing but blanks': { content: base64('\n\n  ,,\n') },
      }),
    };
  },
  readSheetImport: ({ importId }) => one(importId),
  answerSheetImport: ({ importId }) => ({ ...one(importId), body: { ...NO_ANSWERS, unit: 'lb' } }),
  takeSheetImport: ({ importId }) => ({ ...one(importId), url: `/api/imports/${importId}/taken`, body: {} }),
  undoSheetImport: ({ importId }) => one(importId),
  readRefusedRows: ({ importId }) => ({ ...one(importId), url: `/api/imports/${importId}/refused.csv` }),
} satisfies Partial<Record<RouteName, Make>>;
