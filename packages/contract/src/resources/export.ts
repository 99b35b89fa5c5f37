/** Everything of a programme as one file. */
import { coordinators, type RouteSpec } from '../route.ts';

export const exportRoutes = [
  {
    method: 'GET',
    path: '/api/export.zip',
    name: 'readExport',
    summary: 'Everything of the programme as one zip: tables as CSV and JSON, photos, an explanation in words, checksums; no secrets',
    tag: 'keep',
    access: coordinators,
    own: 'nothing',
    sends: 'file',
    contentType: 'application/zip',
    sums: true,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
