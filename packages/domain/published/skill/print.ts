/** `npx tsx packages/domain/published/skill/print.ts [histories]` prints the skill of forecasts on the three kinds of truth. */
import { AS_PEOPLE_DO, TRUTHS, WITHOUT_FAULT } from './history.ts';
import { type SkillReport, skillOf } from './skill.ts';

/** The three truths with logs as people keep them, and the first once more with a log without fault. */
export function skillTables(histories: number): { readonly text: string; readonly reports: ReadonlyMap<string, SkillReport> } {
  const reports = new Map<string, SkillReport>([
    ...TRUTHS.map((truth) => [truth as string, skillOf(truth, histories, AS_PEOPLE_DO)] as const),
    ['prior, log without fault', skillOf('prior', histories, WITHOUT_FAULT)],
  ]);
  const lines = [
    '| truth | what | days ahead | happened | Brier | skill | forecast > happened (histories) by fifths |',
    '| --- | --- | --- | --- | --- | --- | --- |',
  ];
  for (const [name, { rows }] of reports)
    for (const row of rows) {
      const fifths = row.reliability
        .map((bin) => (bin.histories === 0 ? '-' : `${bin.forecast.toFixed(2)} > ${bin.happened.toFixed(2)} (${bin.histories})`))
        .join(', ');
      const figures = `${row.baseRate.toFixed(2)} | ${row.brier.toFixed(3)} | ${row.skill.toFixed(2)}`;
      lines.push(`| ${name} | ${row.what} | ${row.horizonDays} | ${figures} | ${fifths} |`);
    }
  lines.push('', '| truth | ranks of the true moisture among the members, in eighths |', '| --- | --- |');
  for (const [name, { ranks }] of reports) lines.push(`| ${name} | ${ranks.join(', ')} |`);
  return { text: lines.join('\n'), reports };
}

if (process.argv[1]?.endsWith('print.ts')) console.log(skillTables(Number(process.argv[2] ?? 300)).text);
