import { describe, expect, it } from 'vitest';
import { readOpenApi } from './read-openapi.ts';

describe('readOpenApi()', () => {
  it('lists routes by tag with what is sent, through a reference too', () => {
    const document = {
      paths: {
        '/api/bins': { get: { tags: ['place'], summary: 'Bins', responses: { 200: {}, 401: {} } } },
        '/api/notes': {
          post: {
            tags: ['entry'],
            summary: 'Note',
            requestBody: { content: { 'application/json': { schema: { $ref: '#/components/schemas/Note' } } } },
            responses: { 201: {} },
          },
        },
      },
      components: { schemas: { Note: { properties: { id: {}, note: {} }, required: ['id'] } } },
    };
    expect(readOpenApi(document)).toEqual([
      { tag: 'place', lines: [{ method: 'GET', path: '/api/bins', summary: 'Bins', body: [], answer: '200' }] },
      { tag: 'entry', lines: [{ method: 'POST', path: '/api/notes', summary: 'Note', body: ['id', 'note?'], answer: '201' }] },
    ]);
  });
  it('makes an empty list of what is no such document', () => {
    expect([readOpenApi(null), readOpenApi('x'), readOpenApi({ paths: [] })]).toEqual([[], [], []]);
  });
});
