import fastJson from 'fast-json-stringify';
import * as z from 'zod';

type Json = Record<string, unknown>;

/** Rules about values: an answer is checked by tests, not by the serialiser, and these would only slow it down. */
const VALUE_RULES = new Set([
  '$schema',
  'format',
  'pattern',
  'minLength',
  'maxLength',
  'minimum',
  'maximum',
  'exclusiveMinimum',
  'exclusiveMaximum',
  'minItems',
  'maxItems',
  'propertyNames',
  'default',
  'description',
  'enum', // an open answer (null) to a closed question would match no branch of a union
]);

type Serialise = (value: unknown) => string;

/** Making one takes longer than opening a store, and the shape of an answer never changes. */
const made = new WeakMap<z.ZodType, Serialise>();

/** A function that writes an answer as JSON: only the fields of the contract, several times faster than JSON.stringify. */
export function serialiserOf(answer: z.ZodType): Serialise {
  const known = made.get(answer) ?? compile(answer);
  made.set(answer, known);
  return known;
}

function compile(answer: z.ZodType): Serialise {
  const schema = z.toJSONSchema(answer, { io: 'output', target: 'draft-7', unrepresentable: 'any' });
  return fastJson(lean(schema) as never) as Serialise;
}

function lean(node: unknown): unknown {
  if (Array.isArray(node)) return node.map(lean);
  if (node === null || typeof node !== 'object') return node;
  const { anyOf, ...rest } = node as Json & { anyOf?: Json[] };
  const plain = Object.fromEntries(
    Object.entries(rest)
      .filter(([key]) => !VALUE_RULES.has(key))
      .map(([key, value]) => [key, key === 'properties' ? leanEach(value as Json) : lean(value)]),
  );
  if (anyOf === undefined) return plain;
  const parts = anyOf.filter((part) => part.type !== 'null');
  const nullable = parts.length < anyOf.length;
  if (parts.length === 1) return { ...plain, ...(lean(parts[0]) as Json), ...(nullable ? { nullable: true } : {}) };
  return { ...plain, anyOf: anyOf.map(lean) };
}

/** Names of fields are not rules, even where one is called `format` or `default`. */
const leanEach = (fields: Json): Json => Object.fromEntries(Object.entries(fields).map(([name, value]) => [name, lean(value)]));
