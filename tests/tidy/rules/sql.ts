import ts from 'typescript';
import { isScript, isTidy, type TidyRule, walk } from '../rule.ts';

const statement = /^\s*(select|insert|update|delete|replace|with|create|drop|alter|pragma|vacuum|attach)\b[\s\S]*\s/i;
const clause = /\b(where|values|from|set|limit|order by)\s+$/i;

/** The fixed words of a text that is put together from parts, or undefined for anything else. */
function wordsOf(node: ts.Node): string | undefined {
  if (ts.isTemplateExpression(node)) return [node.head.text, ...node.templateSpans.map((span) => span.literal.text)].join('?');
  if (!ts.isBinaryExpression(node) || node.operatorToken.kind !== ts.SyntaxKind.PlusToken) return undefined;
  const side = (part: ts.Expression): string => (ts.isStringLiteralLike(part) ? part.text : (wordsOf(part) ?? '?'));
  return side(node.left) + side(node.right);
}

/**
 * E17. Values reach SQL as bound parameters only. Drizzle's own sql`...` binds what is put into it and is therefore allowed;
 * a name that cannot be bound (a table in a loop over our own list) is quoted by one function, `quotedName`.
 */
export const sqlRule: TidyRule = {
  name: 'E17: no value put into SQL text',
  applies: (path) => isScript(path) && /^(apps|seed|tests|bench)\//.test(path) && !isTidy(path),
  complaints: (file) => {
    const found: { line: number; what: string }[] = [];
    walk(file, (node, line) => {
      const words = wordsOf(node);
      if (words === undefined || wordsOf(node.parent) !== undefined) return;
      if (ts.isTaggedTemplateExpression(node.parent) && /^sql\b/.test(node.parent.tag.getText())) return;
      if (!isSql(words) || onlyFixedParts(node)) return;
      found.push({ line, what: 'text is put into SQL: bind it as a parameter, or use quotedName() for one of our own table names' });
    });
    return found;
  },
  caught: [
    { path: 'apps/api/src/db/a.ts', text: 'db.prepare(`SELECT * FROM bins WHERE id = ${id}`).get();' },
    { path: 'apps/api/src/db/a.ts', text: "db.exec('DELETE FROM bins WHERE id = ' + id);" },
    { path: 'apps/api/src/db/a.ts', text: 'sql.raw(`UPDATE bins SET label = ${label} `);' },
    { path: 'apps/api/src/db/a.ts', text: 'const LIVE = name;\ndb.prepare(`SELECT * FROM entry WHERE ${LIVE}`).all();' },
    { path: 'apps/api/src/db/a.ts', text: 'db.exec(`PRAGMA user_version = ${version}`);' },
  ],
  allowed: [
    { path: 'apps/api/src/db/a.ts', text: "db.prepare('SELECT * FROM bins WHERE id = ?').get(id);" },
    { path: 'apps/api/src/db/a.ts', text: 'db.all(sql`SELECT * FROM bins WHERE id = ${id}`);' },
    { path: 'apps/api/src/db/a.ts', text: 'db.prepare(`SELECT count(*) FROM ${quotedName(table)}`).get();' },
    { path: 'apps/api/src/db/a.ts', text: "const LIVE = 'undone_at IS NULL';\ndb.prepare(`SELECT * FROM entry WHERE ${LIVE}`).all();" },
    { path: 'apps/api/src/a.ts', text: 'throw new Error(`Update of ${name} did not end.`);' },
    { path: 'apps/api/src/a.ts', text: 'const words = `Select ${count} bins`;' },
  ],
};

/** SQL begins with a verb and holds one of its clauses; a sentence that begins with "Update" does not. */
function isSql(words: string): boolean {
  const verb = words.match(statement)?.[1]?.toLowerCase();
  if (!verb) return false;
  const needs: Readonly<Record<string, RegExp>> = {
    select: /\bfrom\b/i,
    insert: /\binto\b/i,
    replace: /\binto\b/i,
    update: /\bset\b/i,
    delete: /\bfrom\b/i,
    with: /\bas\s*\(/i,
    create: /\b(table|index|trigger|view)\b/i,
    drop: /\b(table|index|trigger|view)\b/i,
    alter: /\btable\b/i,
    pragma: /\w/,
    vacuum: /\binto\b/i,
    attach: /\bas\b/i,
  };
  return needs[verb]?.test(words) === true || clause.test(words);
}

/** A name of ours in quotes, or a piece of SQL that is written out in the same file as a constant. */
function onlyFixedParts(node: ts.Node): boolean {
  if (!ts.isTemplateExpression(node)) return false;
  const fixed = fixedTexts(node.getSourceFile());
  return node.templateSpans.every(({ expression }) => /^quotedName\(/.test(expression.getText()) || fixed.has(expression.getText()));
}

function fixedTexts(tree: ts.SourceFile): Set<string> {
  const declared = tree.statements
    .filter(ts.isVariableStatement)
    .filter(({ declarationList }) => declarationList.flags & ts.NodeFlags.Const);
  const texts = declared
    .flatMap(({ declarationList }) => declarationList.declarations)
    .filter(({ initializer }) => initializer && ts.isStringLiteralLike(initializer));
  return new Set(texts.map(({ name }) => name.getText()));
}
