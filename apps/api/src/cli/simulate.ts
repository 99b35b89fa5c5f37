import { readFileSync, writeFileSync } from 'node:fs';
import { simulateText } from '@middenry/domain';
import type { Command } from './command.ts';

const FAULTY = 2;

export const simulateCommand: Command = {
  name: 'simulate',
  usage: 'simulate SCENARIO.json [--out RESULT.json]',
  words: 'Runs one bin through its days without any database; "-" reads the scenario from standard input.',
  run(args) {
    const out = args.indexOf('--out');
    const target = out < 0 ? undefined : args[out + 1];
    const [source] = args.filter((_arg, at) => out < 0 || (at !== out && at !== out + 1));
    if (source === undefined || (out >= 0 && target === undefined)) {
      console.error(`middenry: say which file: npx middenry ${this.usage}`);
      return FAULTY;
    }
    const text = read(source);
    if (text === null) return FAULTY;
    const result = simulateText(text);
    if (result.exitCode !== 0) {
      for (const line of result.faultLines) console.error(line);
      return result.exitCode;
    }
    if (target === undefined) process.stdout.write(result.resultText);
    else writeFileSync(target, result.resultText);
    return 0;
  },
};

function read(source: string): string | null {
  try {
    return readFileSync(source === '-' ? 0 : source, 'utf8');
  } catch (error) {
    console.error(`middenry: cannot read ${source}: ${(error as Error).message}`);
    return null;
  }
}
