/** Reads a PDF as a screen reader would: by its tags, in their order. */
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';

export interface Tagged {
  readonly tag: string;
  readonly alt: string | null;
  readonly text: string;
  readonly children: readonly Tagged[];
}
export interface ReadPdf {
  readonly title: string;
  readonly language: string | null;
  readonly isTagged: boolean;
  readonly pages: number;
  /** What stands under the document's root; a table that goes on overleaf is one. */
  readonly tags: readonly Tagged[];
}

interface TreeNode {
  readonly role?: string;
  readonly type?: string;
  readonly id?: string;
  readonly alt?: string;
  readonly children?: readonly TreeNode[];
}

export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  const task = getDocument({ data: new Uint8Array(bytes), useSystemFonts: false, verbosity: 0 });
  const pdf = await task.promise;
  const { info } = await pdf.getMetadata();
  const facts = info as { readonly Title?: string; readonly Language?: string | null };
  const markInfo = await pdf.getMarkInfo();
  const tags: Tagged[] = [];
  for (let number = 1; number <= pdf.numPages; number += 1) {
    const page = await pdf.getPage(number);
    const texts = textsOf((await page.getTextContent({ includeMarkedContent: true })).items as never);
    const tree = (await page.getStructTree()) as unknown as TreeNode | null;
    const onPage = (tree?.children ?? []).flatMap((document) => (document.children ?? []).map((node) => taggedOf(node, texts)));
    for (const [at, tag] of onPage.entries()) {
      const isTable = at === 0 && tag.tag === 'Table' && tags.at(-1)?.tag === 'Table';
      const goesOn = isTable && !tag.children.some((child) => child.tag === 'Caption');
      const begun = goesOn ? tags.pop() : undefined;
      tags.push(begun === undefined ? tag : { ...begun, children: [...begun.children, ...tag.children] });
    }
  }
  const pages = pdf.numPages;
  await task.destroy();
  return { title: facts.Title ?? '', language: facts.Language ?? null, isTagged: markInfo?.Marked === true, pages, tags };
}

function textsOf(items: readonly { readonly type?: string; readonly id?: string; readonly str?: string }[]): Map<string, string> {
  const texts = new Map<string, string>();
  const open: (string | null)[] = [];
  for (const item of items) {
    if (item.type?.startsWith('beginMarkedContent')) open.push(item.id ?? null);
    else if (item.type === 'endMarkedContent') open.pop();
    else {
      const id = open.at(-1);
      if (id) texts.set(id, `${texts.get(id) ?? ''}${texts.has(id) && item.str !== '' ? ' ' : ''}${item.str ?? ''}`);
    }
  }
  return texts;
}

function taggedOf(node: TreeNode, texts: ReadonlyMap<string, string>): Tagged {
  const inner = node.children ?? [];
  const own = inner.filter(({ type }) => type === 'content').map(({ id }) => texts.get(id ?? '') ?? '');
  const children = inner.filter(({ role }) => role !== undefined).map((child) => taggedOf(child, texts));
  const text = own.join(' ').replace(/\s+/g, ' ').trim();
  return { tag: node.role ?? '', alt: node.alt ?? null, text, children };
}

/** Tables by their captions, or by the heading above where it is their name; each a list of rows of cells. */
export function tablesOf(tags: readonly Tagged[]): Map<string, string[][]> {
  const tables = new Map<string, string[][]>();
  let heading = '';
  for (const { tag, text, children } of tags) {
    if (tag === 'H2') heading = text;
    if (tag !== 'Table') continue;
    const name = children.find((child) => child.tag === 'Caption')?.text ?? heading;
    const rows = children.filter((child) => child.tag === 'TR').map((row) => row.children.map((cell) => cell.text));
    tables.set(name, rows);
  }
  return tables;
}
