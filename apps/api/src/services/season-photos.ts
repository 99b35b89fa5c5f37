/** Photos in reports: at most eight, each with words, and none of somebody who does not consent to it (criteria D15). */
import type { SeasonPhoto, SeasonPhotos, SeasonPhotosChosen } from '@middenry/contract';
import type * as z from 'zod';
import { namedSeasonById } from '../db/repositories/named-season.ts';
import { publishedSeasonById } from '../db/repositories/published-season.ts';
import { mayReport, photosForReport, publishedSeasonPhotos, putSeasonPhotoRows, seasonPhotos } from '../db/repositories/season-photo.ts';
import { write } from '../db/store.ts';
import { refuse, refuseField } from '../refusal.ts';
import { type AskedOwn, ownSeason } from './named-seasons.ts';

const CHOICE_MOST = 60;

export function readSeasonPhotos(call: AskedOwn, id: string): SeasonPhotos & { choice: SeasonPhoto[] } {
  const season = seasonOf(call, id);
  return { ...shown(seasonPhotos(call.store, id)), choice: photosForReport(call.store, season, CHOICE_MOST) };
}

export const putSeasonPhotos = (call: AskedOwn, id: string, { photos }: z.output<typeof SeasonPhotosChosen>): SeasonPhotos =>
  write(call.store, () => {
    const { siteId } = seasonOf(call, id);
    const at = photos.findIndex(({ photoId }) => !mayReport(call.store, photoId, siteId));
    if (at >= 0) throw refuseField(`/photos/${at}/photoId`, 'is no photo that this report may show: choose another one');
    putSeasonPhotoRows(call.store, id, photos);
    return shown(seasonPhotos(call.store, id));
  });

export function readPublishedSeasonPhotos(call: AskedOwn, id: string): SeasonPhotos {
  const season = publishedSeasonById(call.store, id);
  if (season === null) throw refuse('not-found');
  ownSeason(call, season.siteId);
  return shown(publishedSeasonPhotos(call.store, id));
}

function seasonOf(call: AskedOwn, id: string) {
  const season = namedSeasonById(call.store, id);
  if (season === null) throw refuse('not-found');
  ownSeason(call, season.siteId);
  return season;
}

const shown = ({ rows, chosen }: ReturnType<typeof seasonPhotos>): SeasonPhotos => ({ items: rows, gone: chosen - rows.length });
