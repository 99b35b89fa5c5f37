import { airless } from './airless.ts';
import { ammonia } from './ammonia.ts';
import { beddingLow } from './bedding-low.ts';
import { cold } from './cold.ts';
import type { SignalDefinition } from './definition.ts';
import { dry } from './dry.ts';
import { harvestDue } from './harvest-due.ts';
import { hot } from './hot.ts';
import { hungry } from './hungry.ts';
import { overfed } from './overfed.ts';
import { sour } from './sour.ts';
import type { SignalId } from './types.ts';
import { unseen } from './unseen.ts';
import { wet } from './wet.ts';

/** Every signal of the product, one file each. */
export const SIGNALS: Readonly<Record<SignalId, SignalDefinition>> = {
  airless,
  overfed,
  hungry,
  dry,
  wet,
  hot,
  cold,
  sour,
  ammonia,
  'bedding-low': beddingLow,
  'harvest-due': harvestDue,
  unseen,
};
