import { ROLES, ROUTES, type RouteSpec } from '@middenry/contract';
import * as z from 'zod';
import { markdownTable, type ReferencePage } from './page.ts';

interface FieldSchema {
  readonly type?: string | readonly string[];
  readonly properties?: Readonly<Record<string, FieldSchema>>;
  readonly required?: readonly string[];
  readonly items?: FieldSchema;
  readonly anyOf?: readonly FieldSchema[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly format?: string;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly maxLength?: number;
  readonly maxItems?: number;
  readonly default?: unknown;
  readonly description?: string;
}

const rows: readonly RouteSpec[] = ROUTES;

/** What a field may hold, in a few words. */
function kindOf(schema: FieldSchema): string {
  if (schema.const !== undefined) return `\`${JSON.stringify(schema.const)}\``;
  if (schema.enum) return schema.enum.map((value) => `\`${String(value)}\``).join(', ');
  if (schema.anyOf) return schema.anyOf.map(kindOf).join(' or ');
  if (schema.type === 'array')
    return `list of ${schema.items ? kindOf(schema.items) : 'anything'}${schema.maxItems === undefined ? '' : `, at most ${schema.maxItems}`}`;
  if (schema.type === 'object' || schema.properties) return `{ ${Object.keys(schema.properties ?? {}).join(', ')} }`;
  const limits = [
    schema.minimum === undefined || schema.minimum < -1e9 ? '' : `from ${schema.minimum}`,
    schema.maximum === undefined || schema.maximum > 1e9 ? '' : `to ${schema.maximum}`,
    schema.maxLength === undefined ? '' : `at most ${schema.maxLength} characters`,
  ].filter(Boolean);
  return [schema.format ?? schema.type ?? 'anything', ...limits].join(' ');
}

function fieldsOf(title: string, type: z.ZodType | undefined): string {
  if (!type) return '';
  const schema = z.toJSONSchema(type, { io: 'input', unrepresentable: 'any' }) as FieldSchema;
  const fields = Object.entries(schema.properties ?? {});
  if (fields.length === 0) return '';
  const table = fields.map(([name, field]) => {
    const must = schema.required?.includes(name) ? 'yes' : field.default === undefined ? 'no' : `no: ${JSON.stringify(field.default)}`;
    return [`\`${name}\``, kindOf(field), must, field.description ?? ''];
  });
  return `${title}:\n\n${markdownTable(['Field', 'Holds', 'Must be given', 'Note'], table)}`;
}

function whoMay({ access }: RouteSpec): string {
  if (access.anonymous === 'any') return 'anybody';
  const words = ROLES.flatMap((role) => (access[role] === 'none' ? [] : [access[role] === 'own' ? `${role} (own only)` : role]));
  return words.join(', ');
}

function routeText(spec: RouteSpec): string {
  const answer = spec.status === 204 ? 'nothing' : (spec.contentType ?? 'JSON');
  return [
    `### ${spec.method} ${spec.path}`,
    `${spec.summary}. For: ${whoMay(spec)}. Answers ${spec.status} with ${answer}.`,
    fieldsOf('Query', spec.query),
    fieldsOf('Body', spec.body),
  ]
    .filter(Boolean)
    .join('\n\n');
}

export const routesPage: ReferencePage = {
  file: 'api.md',
  title: 'The API',
  about:
    'Every route of the server. The same as OpenAPI 3.1 is served at `/api/openapi.json`. Made from the route table in `packages/contract`. Changes take JSON only and are refused from other sites; every refusal is one of the [problems](problems.md).',
  body: () => {
    const tags = [...new Set(rows.map(({ tag }) => tag))];
    return tags
      .map(
        (tag) =>
          `## ${tag}\n\n${rows
            .filter((row) => row.tag === tag)
            .map(routeText)
            .join('\n\n')}`,
      )
      .join('\n\n');
  },
};
