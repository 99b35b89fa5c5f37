import type { Parameter } from '../../packages/domain/src/bin/parameter.ts';
import { markdownTable, plain, type ReferencePage } from './page.ts';

/** What each file of the domain exports, by its path; see scripts/gen/reference.mjs. */
export type ModulesByPath = Readonly<Record<string, Readonly<Record<string, unknown>>>>;

const isParameter = (value: unknown): value is Parameter =>
  typeof value === 'object' && value !== null && ['value', 'unit', 'evidence', 'source'].every((key) => key in value);

/** Parameters of one exported thing: itself, or the members of a set of them. */
function parametersIn(name: string, value: unknown): [string, Parameter][] {
  if (isParameter(value)) return [[name, value]];
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return [];
  return Object.entries(value).filter((entry): entry is [string, Parameter] => isParameter(entry[1]));
}

export const figuresPage = (modules: ModulesByPath): ReferencePage => ({
  file: 'figures.md',
  title: 'Figures of the model',
  about:
    'Every figure that a process of the model uses, how well it is known and where it comes from: keys are explained in `shared/sources.md`; `none:` is our own estimate, with its reason. Made from `packages/domain/src`. Limits of signals stand with the [signals](signals.md).',
  body: () =>
    Object.entries(modules)
      .map(([path, exported]) => [path, Object.entries(exported).flatMap(([name, value]) => parametersIn(name, value))] as const)
      .filter(([, parameters]) => parameters.length > 0)
      .map(([path, parameters]) => {
        const rows = parameters.map(([name, { value, unit, evidence, source }]) => [`\`${name}\``, plain(value), unit, evidence, source]);
        return `## ${path}\n\n${markdownTable(['Figure', 'Value', 'Unit', 'How well known', 'Source'], rows)}`;
      })
      .join('\n\n'),
});
