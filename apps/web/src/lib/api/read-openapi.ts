/** One line of the page that reads the API. */
export interface ApiLine {
  readonly method: string;
  readonly path: string;
  readonly summary: string;
  readonly body: readonly string[];
  readonly answer: string;
}

type Json = Readonly<Record<string, unknown>>;
const METHODS = ['get', 'post', 'put', 'patch', 'delete'];
const isJson = (value: unknown): value is Json => typeof value === 'object' && value !== null && !Array.isArray(value);
const at = (value: unknown, ...keys: string[]): unknown => keys.reduce<unknown>((v, key) => (isJson(v) ? v[key] : undefined), value);

/** The routes of an OpenAPI document by their tag, with the names of what is sent. */
export function readOpenApi(document: unknown): { tag: string; lines: ApiLine[] }[] {
  const groups = new Map<string, ApiLine[]>();
  const paths = at(document, 'paths');
  for (const [path, item] of Object.entries(isJson(paths) ? paths : {})) {
    for (const method of METHODS) {
      const route = at(item, method);
      if (!isJson(route)) continue;
      const tags = route.tags;
      const tag = Array.isArray(tags) && typeof tags[0] === 'string' ? tags[0] : 'other';
      const line = {
        method: method.toUpperCase(),
        path,
        summary: typeof route.summary === 'string' ? route.summary : '',
        body: bodyOf(document, route),
        answer: answerOf(route),
      };
      groups.set(tag, [...(groups.get(tag) ?? []), line]);
    }
  }
  return [...groups].map(([tag, lines]) => ({ tag, lines }));
}

function bodyOf(document: unknown, route: Json): string[] {
  const schema = at(route, 'requestBody', 'content', 'application/json', 'schema');
  const ref = at(schema, '$ref');
  const whole = typeof ref === 'string' ? at(document, ...ref.replace('#/', '').split('/')) : schema;
  const properties = at(whole, 'properties');
  const required = at(whole, 'required');
  const needed = Array.isArray(required) ? required : [];
  return isJson(properties) ? Object.keys(properties).map((name) => (needed.includes(name) ? name : `${name}?`)) : [];
}

function answerOf(route: Json): string {
  const responses = at(route, 'responses');
  return isJson(responses) ? (Object.keys(responses).find((status) => status.startsWith('2')) ?? '') : '';
}
