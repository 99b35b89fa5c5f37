import { REMEDY_IDS } from '@middenry/domain';
import { SIGNALS } from '../../packages/domain/src/signals/registry.ts';
import { markdownTable, plain, type ReferencePage } from './page.ts';

type Signal = (typeof SIGNALS)[keyof typeof SIGNALS];

function signalText(signal: Signal): string {
  const thresholds = Object.entries({ ...signal.thresholds, 'dead band': signal.deadBand });
  return [
    `## ${signal.id}`,
    markdownTable(
      ['Kind', 'Priority', 'Who sees to it', 'Within', 'Must hold for', 'Remedies', 'Cautions'],
      [
        [
          signal.role,
          signal.priority,
          signal.owner,
          `${signal.respondWithinDays} days`,
          `${signal.delayDays} days`,
          signal.remedies.join(', '),
          signal.cautions.join(', '),
        ],
      ],
    ),
    markdownTable(
      ['Limit', 'Value', 'Unit', 'How well known', 'Source'],
      thresholds.map(([name, { value, unit, evidence, source }]) => [name, plain(value), unit, evidence, source]),
    ),
  ].join('\n\n');
}

export const signalsPage: ReferencePage = {
  file: 'signals.md',
  title: 'Signals',
  about: `What Middenry looks out for, with its limits and where they come from. Made from \`packages/domain/src/signals\`. What causes each, what it leads to and what to do then stands on the page “What the flags mean”, in each language. Remedies known: ${REMEDY_IDS.join(', ')}.`,
  body: () => Object.values(SIGNALS).map(signalText).join('\n\n'),
};
