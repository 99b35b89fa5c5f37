/**
 * What the service worker carries for pages without a network: the shell, and only the chunks of
 * the pages at the bin.
 *
 * @typedef {{ file: string, imports?: string[], dynamicImports?: string[], css?: string[] }} Chunk
 * @typedef {{ page: { layouts: (number | undefined)[], errors: (number | undefined)[], leaf: number } | null, id: string }} Route
 */

const NODE = /(^|\/)\.svelte-kit\/generated\/client[\w-]*\/nodes\/(\d+)\.js$/;
const FRAME = /(\/runtime\/client\/entry\.js|\.svelte-kit\/generated\/client[\w-]*\/app\.js)$/;

/**
 * The built files that these pages need, each once: what they import, and what they fetch later on,
 * such as words, but not the pages that they lead to.
 *
 * @param {Readonly<Record<string, Chunk>>} chunks the bundler's own manifest
 * @param {readonly Route[]} routes
 * @param {readonly string[]} wanted ids of the routes
 * @returns {string[]}
 * @throws {Error} when there is no such route
 */
export function carriedFiles(chunks, routes, wanted) {
  const nodes = new Set(wanted.flatMap((id) => nodesOf(routes, id)));
  const files = new Set();
  const seen = new Set();
  const queue = Object.keys(chunks).filter((key) => FRAME.test(key) || nodes.has(Number(NODE.exec(key)?.[2] ?? Number.NaN)));
  for (let key = queue.pop(); key !== undefined; key = queue.pop()) {
    const chunk = chunks[key];
    if (chunk === undefined || seen.has(key)) continue;
    seen.add(key);
    files.add(chunk.file);
    for (const style of chunk.css ?? []) files.add(style);
    queue.push(...(chunk.imports ?? []), ...(chunk.dynamicImports ?? []).filter((other) => !NODE.test(other)));
  }
  return [...files].sort();
}

/**
 * @param {readonly Route[]} routes
 * @param {string} id
 * @returns {number[]}
 */
function nodesOf(routes, id) {
  const page = routes.find((route) => route.id === id)?.page;
  if (!page) throw new Error(`Cannot carry ${id} as there is no such page`);
  return [...page.layouts, ...page.errors, page.leaf].filter((node) => node !== undefined);
}

/** The folders of a route that lie in brackets are no part of its address; a name in brackets is any one word. */
export const addressOf = (/** @type {string} */ id) => id.replace(/\/\([^)]*\)/g, '').replace(/\[[^\]]*\]/g, '*');
