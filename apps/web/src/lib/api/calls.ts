import type { classRoutes, eventsRoutes, keepRoutes, ROUTES } from '@middenry/contract';
import type * as z from 'zod';
import type { FarCall } from './far-calls.ts';

/** Classes and keeping are named apart, since the pages may come before the API serves them. */
type Known = (typeof ROUTES)[number] | (typeof classRoutes)[number] | (typeof keepRoutes)[number] | (typeof eventsRoutes)[number];
export type RouteName = Known['name'];
type RouteOf<N extends RouteName> = Extract<Known, { readonly name: N }>;
type Shape<N extends RouteName, K extends 'answer' | 'body' | 'query'> =
  RouteOf<N> extends Record<K, infer S extends z.ZodType> ? S : never;

/** What a route answers, by its name in the contract. */
export type Answer<N extends RouteName> = z.output<Shape<N, 'answer'>>;
export type BodyOf<N extends RouteName> = z.input<Shape<N, 'body'>>;

/**
 * The routes that a browser calls at the bin and on the pages most opened. Only types come from the contract, so that its schemas
 * stay out of the phone's download; the test beside this file compares every line with the route table.
 */
export const CALLS = {
  readSession: 'GET /api/session',
  listSites: 'GET /api/sites',
  listBins: 'GET /api/bins',
  readBin: 'GET /api/bins/:id',
  readBinCard: 'GET /api/bin-cards/:code',
  readBoard: 'GET /api/board',
  readLife: 'GET /api/bins/:id/life',
  readOutlook: 'GET /api/bins/:id/outlook',
  listEntries: 'GET /api/bins/:id/entries',
  undoEntry: 'DELETE /api/entries/:id',
  logFeeding: 'POST /api/feedings',
  logCheck: 'POST /api/checks',
  logHarvest: 'POST /api/harvests',
  logBatch: 'POST /api/entries/batch',
  readPocket: 'GET /api/pocket',
  listMaterials: 'GET /api/materials',
  listContainers: 'GET /api/containers',
  listShifts: 'GET /api/shifts',
  readShift: 'GET /api/shifts/:id',
  readShiftCard: 'GET /api/shifts/:id/card',
  readPlaces: 'GET /api/places',
  listDuties: 'GET /api/duties',
  logCare: 'POST /api/cares',
  logNote: 'POST /api/notes',
  logWorms: 'POST /api/worms',
  readEntry: 'GET /api/entries/:id',
  listInvitations: 'GET /api/invitations',
  listTold: 'GET /api/shifts/:id/told',
  readEvents: 'GET /api/events',
  putPhoto: 'PUT /api/photos/:id',
  listPhotos: 'GET /api/bins/:id/photos',
  takeOffPhoto: 'DELETE /api/photos/:id',
} as const satisfies Partial<Record<RouteName, string>>;
export type NearCall = keyof typeof CALLS;
export type CallName = NearCall | FarCall;
