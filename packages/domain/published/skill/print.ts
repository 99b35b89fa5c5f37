/** `npx tsx packages/domain/published/skill/print.ts [histories]` prints the skill of forecasts on the three kinds of truth. */
import { TRUTHS } from './history.ts';
import { skillOf } from './skill.ts';

const histories = Number(process.argv[2] ?? 300);
console.log('| truth | what | days ahead | histories | happened | Brier | skill | forecast > happened (histories) by fifths |');
console.log('| --- | --- | --- | --- | --- | --- | --- | --- |');
const ranks: string[] = [];
for (const truth of TRUTHS) {
  const report = skillOf(truth, histories);
  for (const row of report.rows) {
    const fifths = row.reliability
      .map((bin) => (bin.histories === 0 ? '-' : `${bin.forecast.toFixed(2)} > ${bin.happened.toFixed(2)} (${bin.histories})`))
      .join(', ');
    console.log(
      `| ${truth} | ${row.what} | ${row.horizonDays} | ${row.histories} | ${row.baseRate.toFixed(2)} | ${row.brier.toFixed(3)} | ${row.skill.toFixed(2)} | ${fifths} |`,
    );
  }
  ranks.push(`Ranks of the true moisture among the members, in eighths, ${truth}: ${report.ranks.join(' ')}`);
}
console.log(`\n${ranks.join('\n\n')}`);
