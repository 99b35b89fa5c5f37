/** What the programme has that rows can name. Names match whole or not at all, and one that two bear leads to neither. */
import {
  CATALOGUE,
  type ImportAnswers,
  type ImportBin,
  type ImportKnown,
  isMaterialId,
  MATERIAL_IDS,
  NAMED_FIELDS,
  type NamedField,
  NOBODY,
  plainText,
} from '@middenry/domain';
import type { Context } from '../../context.ts';
import { listBins } from '../../db/repositories/bin.ts';
import { listPersons } from '../../db/repositories/person.ts';
import { findProgramme } from '../../db/repositories/programme.ts';
import { listSites } from '../../db/repositories/site.ts';
import { materialsOf } from '../materials.ts';
import { WORDS } from '../words/languages.ts';
import { MATERIAL_WORDS } from './material-words.data.ts';

export interface Known extends ImportKnown {
  /** What can be chosen for a name, with the words that a reader knows it by. */
  readonly choices: Readonly<Record<NamedField, ReadonlyMap<string, string>>>;
  readonly zoneOf: ReadonlyMap<string, string>;
}

export function knownOf({ store, today, language }: Context): Known {
  const bins = listBins(store);
  const sites = listSites(store);
  const people = listPersons(store).filter((person) => person.role !== 'pupil' && person.isAdult);
  const own = materialsOf(store);
  const allowed = MATERIAL_IDS.filter((id) => own.has(id) || (CATALOGUE[id].kind !== 'never' && !CATALOGUE[id].hidden));
  const materials: [string, string][] = [
    ...[...own.values()].filter((row) => row.own).map(({ id, name }): [string, string] => [id, name]),
    ...allowed.map((id): [string, string] => [id, WORDS[language].material(id)]),
  ];
  return {
    today: today(findProgramme(store)?.timeZone ?? 'UTC'),
    bins: new Map(bins.map((bin): [string, ImportBin] => [bin.id, binOf(bin)])),
    names: {
      bin: byName(bins.flatMap(({ id, code, name }) => [code, name, `bin ${code}`, `${code} ${name}`].map((word) => [id, word]))),
      site: byName(sites.map(({ id, name }) => [id, name])),
      person: byName(people.map(({ id, name }) => [id, name])),
      material: byName(materials.flatMap(([id, name]) => wordsOf(id, name).map((word) => [id, word]))),
    },
    choices: {
      bin: new Map(bins.map(({ id, code, name }) => [id, `${code} ${name}`])),
      site: new Map(sites.map(({ id, name }) => [id, name])),
      person: new Map(people.map(({ id, name }) => [id, name])),
      material: new Map(materials),
    },
    zoneOf: new Map([
      ...bins.map(({ id, timeZone }): [string, string] => [id, timeZone]),
      ...sites.map(({ id, timeZone }): [string, string] => [id, timeZone]),
    ]),
  };
}

const binOf = ({ id, startedOn, zones, state }: ReturnType<typeof listBins>[number]): ImportBin => ({
  id,
  startedOn,
  zones,
  isRetired: state === 'retired',
});

/** The whole name in every language, what stands before its first comma or bracket, and what people call it. */
function wordsOf(id: string, name: string): string[] {
  const names = isMaterialId(id) ? Object.values(WORDS).map((words) => words.material(id)) : [name];
  return [...names.flatMap((each) => [each, each.split(/[,(/]/)[0] ?? each]), ...(MATERIAL_WORDS[id] ?? [])];
}

function byName(pairs: readonly (readonly string[])[]): Map<string, string> {
  const found = new Map<string, string>();
  const shared = new Set<string>();
  for (const [id = '', word = ''] of pairs) {
    const name = plainText(word);
    const before = found.get(name);
    if (before !== undefined && before !== id) shared.add(name);
    found.set(name, id);
  }
  for (const name of ['', ...shared]) found.delete(name);
  return found;
}

/** Answers that still lead somewhere: an id of yesterday's file may be gone today. */
export function soundAnswers(answers: ImportAnswers, { choices }: Known): ImportAnswers {
  const names = Object.fromEntries(
    NAMED_FIELDS.map((field) => {
      const sound = Object.entries(answers.names[field] ?? {}).filter(
        ([, id]) => choices[field].has(id) || (field === 'person' && id === NOBODY),
      );
      return [field, Object.fromEntries(sound)];
    }),
  );
  return { ...answers, names };
}
