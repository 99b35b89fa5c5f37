import { ERROR_CODES } from '@middenry/contract';
import { PROBLEMS } from '../../apps/api/src/plugins/problem-words.ts';
import { markdownTable, type ReferencePage } from './page.ts';

export const problemsPage: ReferencePage = {
  file: 'problems.md',
  title: 'Problems',
  about:
    'Every refusal of the API is a problem document (RFC 9457) with one of these codes. Made from `packages/contract/src/problem.ts` and `apps/api/src/plugins/problem-words.ts`.',
  body: () =>
    markdownTable(
      ['Code', 'Status', 'Title', 'What it says'],
      ERROR_CODES.map((code) => [`\`${code}\``, PROBLEMS[code].status, PROBLEMS[code].title, PROBLEMS[code].detail]),
    ),
};
