import { checkScenario } from './bin/check-scenario.ts';
import type { Scenario } from './bin/scenario.ts';
import { simulate } from './bin/simulate.ts';

/** What a command line prints and how it ends: 0 with a result, 2 with one line per fault. */
export type SimulatedText =
  | { readonly exitCode: 0; readonly resultText: string }
  | { readonly exitCode: 2; readonly faultLines: readonly string[] };

/**
 * Runs the text of a scenario file (`middenry-scenario/1`) to the text of its result (`middenry-result/1`).
 *
 * @shape text -> text, or fault lines
 * @returns The result as JSON with a line end, or every fault as `path: message`; the same text gives the same bytes on the same kind of processor
 * @valid any text
 * @source none: our file format
 */
export function simulateText(scenarioText: string): SimulatedText {
  const parsed = parse(scenarioText);
  if (!parsed.ok) return { exitCode: 2, faultLines: [`$: must be JSON: ${parsed.why}`] };
  const faults = checkScenario(parsed.value);
  if (faults.length > 0) return { exitCode: 2, faultLines: faults.map(({ path, message }) => `${path}: ${message}`) };
  return { exitCode: 0, resultText: `${JSON.stringify(simulate(parsed.value as Scenario), null, 1)}\n` };
}

type Parsed = { readonly ok: true; readonly value: unknown } | { readonly ok: false; readonly why: string };

function parse(text: string): Parsed {
  try {
    // A byte order mark is what some editors put first.
    return { ok: true, value: JSON.parse(text.replace(/^\uFEFF/, '')) };
  } catch (error) {
    return { ok: false, why: error instanceof Error ? error.message : 'it can not be read' };
  }
}
