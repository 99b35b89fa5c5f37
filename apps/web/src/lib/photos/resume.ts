import { PHOTOS_MARK } from './mark.ts';

/** Carries on sending photos that waited when the page was closed; nothing is fetched where none wait. */
export function resumePhotos(personId: string): void {
  try {
    if (localStorage.getItem(PHOTOS_MARK) === null) return;
  } catch {
    return;
  }
  void import('./sender.ts').then(({ startPhotos }) => startPhotos(personId));
}
