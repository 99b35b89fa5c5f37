import { figuresPage, type ModulesByPath } from './figures.ts';
import { materialsPage } from './materials.ts';
import { type ReferencePage, textOf } from './page.ts';
import { problemsPage } from './problems.ts';
import { routesPage } from './routes.ts';
import { seasonPage } from './season.ts';
import { settingsPage } from './settings.ts';
import { signalsPage } from './signals.ts';

/** Every page of docs/reference, by its path from the root. A new one: its file, its line here. */
export function referenceTexts(modules: ModulesByPath): Record<string, string> {
  const pages: readonly ReferencePage[] = [
    routesPage,
    problemsPage,
    settingsPage,
    signalsPage,
    materialsPage,
    figuresPage(modules),
    seasonPage,
  ];
  return Object.fromEntries(pages.map((page) => [`docs/reference/${page.file}`, textOf(page)]));
}
