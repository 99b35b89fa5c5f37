/** Says without opening the store whether it is worth fetching what sends photos. */
export const PHOTOS_MARK = 'photos-wait';
