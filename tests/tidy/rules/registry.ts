import type { TidyRule } from '../rule.ts';
import { arrowsRule } from './arrows.ts';
import { dangerRule } from './danger.ts';
import { honestTestsRule } from './honest-tests.ts';
import { namesRule } from './names.ts';
import { sizeRule } from './size.ts';
import { sqlRule } from './sql.ts';
import { dayRule, pureRule } from './time.ts';
import { transactionsRule } from './transactions.ts';
import { laterRule, locationRule, machineRule, thirdPartyRule } from './words.ts';

/** Every convention that is read from one file at a time. A new one: its file, its line here. */
export const rules: readonly TidyRule[] = [
  arrowsRule,
  sizeRule,
  namesRule,
  laterRule,
  machineRule,
  thirdPartyRule,
  locationRule,
  dayRule,
  pureRule,
  sqlRule,
  transactionsRule,
  dangerRule,
  honestTestsRule,
];
