import { BinNew } from '@middenry/contract';
import { BIN_KINDS, MATERIAL_IDS } from '@middenry/domain';
import { describe, expect, it } from 'vitest';
import { uuid7 } from '../shared/uuid7.ts';
import { KIND_SIZES, startFor } from './kind-sizes.ts';

describe('KIND_SIZES', () => {
  it.each(BIN_KINDS)('%s makes a bin that the contract takes', (kind) => {
    const bin = {
      id: uuid7(),
      siteId: uuid7(),
      code: 'R01',
      name: 'R01',
      kind,
      ...KIND_SIZES[kind],
      startedOn: '2026-11-25',
      ...startFor(KIND_SIZES[kind].areaM2),
    };
    expect(BinNew.safeParse(bin).error?.issues).toBeUndefined();
    expect(MATERIAL_IDS as readonly string[]).toContain(bin.bed[0]?.materialId);
  });
});
