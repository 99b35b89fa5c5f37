/** Containers of a site and a programme's own materials. */
import type { Container, ContainerChange, ContainerNew, MaterialFigures, MaterialNew } from '@middenry/contract';
import {
  CATALOGUE,
  gramsFromKg,
  isMaterialId,
  kgFromGrams,
  kgPerLitreFromKgPerM3,
  litresFromMillilitres,
  massFromVolume,
  millilitresFromLitres,
} from '@middenry/domain';
import type * as z from 'zod';
import type { Context, Signed } from '../context.ts';
import {
  type ContainerRow,
  containerById,
  containerNamed,
  containersOf,
  insertContainer,
  updateContainer,
} from '../db/repositories/container.ts';
import { fillFigures, insertMaterial, ownMaterialNamed } from '../db/repositories/material.ts';
import { findSite } from '../db/repositories/site.ts';
import { write } from '../db/store.ts';
import { refuse, refuseField } from '../refusal.ts';
import { knownView, type MaterialView, materialList, materialsOf } from './materials.ts';
import { once } from './once.ts';

type ContainerView = z.output<typeof Container>;

/** A container that nobody has weighed yet holds loose mixed scraps. */
const UNWEIGHED_LIKE = 'food_scraps_veg';

export const listMaterials = (call: Context): MaterialView[] => materialList(materialsOf(call.store), call.language);

export function addMaterial(call: Signed, body: z.output<typeof MaterialNew>): MaterialView {
  const find = () => {
    const row = materialsOf(call.store).get(body.id);
    if (row === undefined) throw refuse('not-found');
    return knownView(row);
  };
  const make = () => {
    const { like, ...rest } = body;
    if (ownMaterialNamed(call.store, body.name) !== null) throw refuse('name-taken');
    if (!isMaterialId(like) || CATALOGUE[like].kind === 'never')
      throw refuseField('/like', 'is not a material of the catalogue that may go in');
    insertMaterial(call.store, { ...rest, ratesLike: like, createdAt: call.now.toISOString() });
    call.audit('material.added', body.id, { name: body.name });
    return find();
  };
  return once(call, 'addMaterial', body, { make, find });
}

export const listContainers = (call: Context, siteId: string | undefined): ContainerView[] =>
  containersOf(call.store, siteId ?? null).map(containerView);

export function addContainer(call: Signed, body: z.output<typeof ContainerNew>): ContainerView {
  const find = () => containerView(containerOrRefuse(call, body.id));
  const make = () => {
    const { id, siteId, name, litres, tareKg, fullKg } = body;
    if (findSite(call.store, siteId) === undefined) throw refuse('not-found');
    if (containerNamed(call.store, siteId, name) !== null) throw refuse('name-taken');
    const densityKgPerL = kgPerLitreFromKgPerM3(CATALOGUE[UNWEIGHED_LIKE].bulkDensityKgM3 ?? 0);
    const fullG = gramsFromKg(fullKg ?? massFromVolume(litres, densityKgPerL));
    const sizes = { volumeMl: millilitresFromLitres(litres), tareG: gramsFromKg(tareKg), fullG };
    insertContainer(call.store, { id, siteId, name, ...sizes, archived: 0, createdAt: call.now.toISOString() });
    return find();
  };
  return once(call, 'addContainer', body, { make, find });
}

export function changeContainer(
  call: Signed,
  id: string,
  body: z.output<typeof ContainerChange>,
  ownSite: (siteId: string) => void,
): ContainerView {
  return write(call.store, () => {
    const row = containerOrRefuse(call, id);
    ownSite(row.siteId);
    const namesake = body.name === undefined ? null : containerNamed(call.store, row.siteId, body.name);
    if (namesake !== null && namesake.id !== id) throw refuse('name-taken');
    updateContainer(call.store, {
      ...row,
      name: body.name ?? row.name,
      volumeMl: body.litres === undefined ? row.volumeMl : millilitresFromLitres(body.litres),
      tareG: body.tareKg === undefined ? row.tareG : gramsFromKg(body.tareKg),
      fullG: body.fullKg === undefined ? row.fullG : gramsFromKg(body.fullKg),
      archived: body.archived === undefined ? row.archived : Number(body.archived),
    });
    return containerView(containerOrRefuse(call, id));
  });
}

function containerOrRefuse(call: Context, id: string): ContainerRow {
  const row = containerById(call.store, id);
  if (row === null) throw refuse('not-found');
  return row;
}

export const containerView = (row: ContainerRow): ContainerView => ({
  id: row.id,
  siteId: row.siteId,
  name: row.name,
  litres: litresFromMillilitres(row.volumeMl),
  tareKg: kgFromGrams(row.tareG),
  fullKg: kgFromGrams(row.fullG),
  kgPerLitre: kgFromGrams(row.fullG) / litresFromMillilitres(row.volumeMl),
  weighings: row.weighings,
  archived: row.archived === 1,
});

/** Fills in what the catalogue lacks; a figure that it has stays as it is. */
export function fillMaterial(call: Signed, id: string, body: z.output<typeof MaterialFigures>): MaterialView {
  if (!isMaterialId(id)) throw refuse('not-found');
  const row = CATALOGUE[id];
  if (row.kind === 'never') throw refuse('material-never');
  if (!row.hidden) throw refuseField('', 'lacks no figure');
  return write(call.store, () => {
    const { moistureFracWb = null, carbonFracDb = null, nitrogenFracDb = null, bulkDensityKgM3 = null, source } = body;
    const figures = { moistureFracWb, carbonFracDb, nitrogenFracDb, bulkDensityKgM3 };
    const missing = FIGURES.filter((figure) => row[figure] === null && figures[figure] === null);
    if (missing.length > 0)
      throw refuse('material-hidden', { errors: missing.map((figure) => ({ pointer: `/${figure}`, message: 'is still missing' })) });
    fillFigures(call.store, { ...figures, materialId: id, source, personId: call.who.personId, filledAt: call.now.toISOString() });
    call.audit('material.filled', id, figures);
    return listMaterials(call).find((material) => material.id === id)!;
  });
}

const FIGURES = ['moistureFracWb', 'carbonFracDb', 'nitrogenFracDb', 'bulkDensityKgM3'] as const;
