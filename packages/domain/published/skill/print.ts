/** `npx tsx packages/domain/published/skill/print.ts [histories] [truth]` prints the skill of forecasts on every kind of truth, or one. */
import { AS_PEOPLE_DO, TRUTHS, WITHOUT_FAULT } from './history.ts';
import { FLAT_BELOW, type Point, type SkillReport, skillOf } from './skill.ts';

/** Of the two that are only reported, and of the log without fault, fewer histories do. */
const FEWER_RATIO = 0.25;

const FAULTLESS = 'prior-log-without-fault';
const WORLDS = [...TRUTHS, FAULTLESS] as const;

export function skillTables(histories: number, only: string | undefined): string {
  const fewer = Math.round(histories * FEWER_RATIO);
  const reports = WORLDS.filter((world) => only === undefined || only === world).map((world): readonly [string, SkillReport] => [
    world,
    world === FAULTLESS ? skillOf('prior', fewer, WITHOUT_FAULT) : skillOf(world, world === 'prior' ? histories : fewer, AS_PEOPLE_DO),
  ]);
  const lines = [
    '| truth | what | days ahead | histories | happened | Brier | skill | forecast > happened, in per cent (histories) |',
    '| --- | --- | --- | --- | --- | --- | --- | --- |',
  ];
  for (const [name, { rows }] of reports)
    for (const row of rows) {
      const figures = `${row.baseRate.toFixed(2)} | ${row.brier.toFixed(3)} | ${row.skill.toFixed(2)}`;
      lines.push(`| ${name} | ${row.what} | ${row.horizonDays} | ${row.histories} | ${figures} | ${row.points.map(told).join(', ')} |`);
    }
  lines.push('', '| truth | rank of the true | histories in each eighth | chi-square | flat |', '| --- | --- | --- | --- | --- |');
  for (const [name, { ranks }] of reports)
    for (const { of, counts, chiSquare } of ranks)
      lines.push(`| ${name} | ${of} | ${counts.join(', ')} | ${chiSquare.toFixed(1)} | ${chiSquare < FLAT_BELOW ? 'yes' : 'no'} |`);
  return lines.join('\n');
}

const PER_CENT = 100;
const told = ({ forecast, happened, histories }: Point): string =>
  `${(forecast * PER_CENT).toFixed(0)} > ${(happened * PER_CENT).toFixed(0)} (${histories})`;

if (process.argv[1]?.endsWith('print.ts')) console.log(skillTables(Number(process.argv[2] ?? 1000), process.argv[3]));
