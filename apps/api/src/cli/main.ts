import { StartRefusal } from '../start-refusal.ts';
import { backupCommand } from './backup.ts';
import type { Command } from './command.ts';
import { doctorCommand } from './doctor.ts';
import { exportCommand } from './export.ts';
import { importCommand } from './import.ts';
import { resetOwnerCommand } from './reset-owner.ts';
import { restoreCommand } from './restore.ts';
import { rollbackCommand } from './rollback.ts';
import { simulateCommand } from './simulate.ts';

export const COMMANDS: readonly Command[] = [
  backupCommand,
  restoreCommand,
  rollbackCommand,
  doctorCommand,
  exportCommand,
  importCommand,
  resetOwnerCommand,
  simulateCommand,
];

async function main([name, ...args]: readonly string[]): Promise<number> {
  const command = COMMANDS.find((one) => one.name === name);
  if (command !== undefined) return command.run(args);
  const list = COMMANDS.map(({ usage, words }) => `  npx middenry ${usage}\n      ${words}`).join('\n');
  const isAsked = name === undefined || name === 'help' || name === '--help';
  (isAsked ? console.log : console.error)(`${isAsked ? '' : `middenry: ${name} is no command.\n`}Commands:\n${list}`);
  return isAsked ? 0 : 2;
}

main(process.argv.slice(2)).then(
  (code) => {
    process.exitCode = code;
  },
  (error: unknown) => {
    console.error(error instanceof StartRefusal ? `middenry: ${error.message}` : error);
    process.exitCode = error instanceof StartRefusal ? error.exitCode : 1;
  },
);
