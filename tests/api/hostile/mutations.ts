/** Ways to spoil a request that is otherwise good, worked out from its schema alone. */

export interface JsonSchema {
  readonly type?: string | readonly string[];
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: boolean | JsonSchema;
  readonly items?: JsonSchema;
  readonly anyOf?: readonly JsonSchema[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly format?: string;
  readonly pattern?: string;
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly minItems?: number;
  readonly maxItems?: number;
}

export interface Mutation {
  /** Where and how it was spoilt, for the test's title. */
  readonly name: string;
  readonly value: unknown;
}

type Step = string | number;

/** A good v4 UUID that names nothing in any test's store. */
export const unknownId = 'ffffffff-ffff-4fff-8fff-ffffffffffff';

const otherTypes: Readonly<Record<string, unknown>> = {
  string: { a: 1 },
  number: 'many',
  integer: 'many',
  boolean: 'perhaps',
  array: 'one',
  object: 7,
};

const isNullable = (schema: JsonSchema): boolean => schema.type === 'null' || (schema.anyOf ?? []).some(isNullable);

/** The schema of what is there when it is not null. */
function present(schema: JsonSchema): JsonSchema {
  const branches = (schema.anyOf ?? []).filter((branch) => branch.type !== 'null');
  return branches.length === 1 && branches[0] ? present(branches[0]) : schema;
}

function numberFaults({ minimum, maximum, type }: JsonSchema): [string, unknown][] {
  const found: [string, unknown][] = [];
  if (minimum !== undefined && minimum >= 0) found.push(['negative', -1]);
  if (minimum !== undefined && minimum < 0) found.push(['too small', minimum - 1]);
  if (minimum !== undefined && minimum > 0 && minimum < 1) found.push(['zero', 0]);
  if (maximum !== undefined && maximum < 1e9) found.push(['a thousand million', 1e9], ['just too large', maximum + 1], ['1e308', 1e308]);
  if (type === 'integer') found.push(['a half', 1.5]);
  return found;
}

function stringFaults(schema: JsonSchema, name: string): [string, unknown][] {
  const { format, pattern, maxLength, minLength } = schema;
  const found: [string, unknown][] = [];
  if (maxLength !== undefined) found.push(['too long', 'x'.repeat(maxLength + 1)]);
  if ((minLength ?? 0) > 0) found.push(['empty', '']);
  if (format === 'uuid') {
    found.push(['no uuid', 'seven']);
    // The id of a new thing is the client's to choose; every other id must be of something that is there.
    if (name !== 'id') found.push(['unknown id', unknownId]);
  }
  if (format === 'date') found.push(['31 February', '2026-02-31'], ['a day in words', 'tomorrow']);
  if (format === 'date-time') found.push(['no instant', '2026-13-45T99:00:00Z'], ['an instant without zone', '2026-05-01T10:00:00']);
  if (pattern !== undefined || schema.enum) found.push(['not one of them', '\u0000 no such thing']);
  return found;
}

function listFaults(schema: JsonSchema, value: unknown): [string, unknown][] {
  const found: [string, unknown][] = [];
  const items = Array.isArray(value) ? value : [];
  if ((schema.minItems ?? 0) > 0) found.push(['an empty list', []]);
  if (schema.maxItems !== undefined && items.length > 0) {
    found.push(['too many', Array.from({ length: schema.maxItems + 1 }, (_, index) => items[index % items.length])]);
  }
  found.push(['a list of nothing', [null]]);
  return found;
}

/** What can be wrong with one value, as name and bad value. */
function faultsOf(schema: JsonSchema, name: string, value: unknown): [string, unknown][] {
  const kind = schema.enum || schema.const !== undefined ? 'string' : typeof schema.type === 'string' ? schema.type : '';
  const found: [string, unknown][] = [];
  if (kind in otherTypes) found.push(['wrong type', otherTypes[kind]]);
  if (kind === 'string') found.push(...stringFaults(schema, name));
  if (kind === 'number' || kind === 'integer') found.push(...numberFaults(schema));
  if (kind === 'array') found.push(...listFaults(schema, value));
  return found;
}

function withValue(root: unknown, path: readonly Step[], value: unknown): unknown {
  const [step, ...rest] = path;
  if (step === undefined) return value;
  const copy = (Array.isArray(root) ? [...root] : { ...(root as object) }) as Record<Step, unknown>;
  copy[step] = withValue(copy[step], rest, value);
  return copy;
}

function without(root: unknown, path: readonly Step[]): unknown {
  const [step, ...rest] = path as [Step, ...Step[]];
  const copy = (Array.isArray(root) ? [...root] : { ...(root as object) }) as Record<Step, unknown>;
  if (rest.length === 0) delete copy[step];
  else copy[step] = without(copy[step], rest);
  return copy;
}

/** Every mutation of a good value that its schema forbids, one fault at a time. */
export function mutationsOf(schema: JsonSchema, good: unknown): Mutation[] {
  const found: Mutation[] = [];
  const visit = (at: JsonSchema, path: readonly Step[], value: unknown): void => {
    const schemaHere = present(at);
    const where = path.length === 0 ? 'the body' : path.join('/');
    const name = String(path.filter((step) => typeof step === 'string').at(-1) ?? '');
    for (const [fault, bad] of faultsOf(schemaHere, name, value))
      found.push({ name: `${where}: ${fault}`, value: withValue(good, path, bad) });
    if (path.length > 0 && !isNullable(at)) found.push({ name: `${where}: null`, value: withValue(good, path, null) });
    visitInside(schemaHere, path, value);
  };
  const visitInside = (schemaHere: JsonSchema, path: readonly Step[], value: unknown): void => {
    const fields = value as Record<string, unknown> | undefined;
    for (const [key, field] of Object.entries(schemaHere.properties ?? {})) {
      if (value === null || typeof value !== 'object') continue;
      if (schemaHere.required?.includes(key))
        found.push({ name: `${[...path, key].join('/')}: left out`, value: without(good, [...path, key]) });
      visit(field, [...path, key], fields?.[key]);
    }
    if (schemaHere.properties && schemaHere.additionalProperties === false) {
      found.push({ name: `${path.join('/')}: a field that is not there`, value: withValue(good, [...path, 'ownerMark'], true) });
    }
    if (schemaHere.items && Array.isArray(value) && value.length > 0) visit(schemaHere.items, [...path, 0], value[0]);
  };
  visit(schema, [], good);
  return found;
}
