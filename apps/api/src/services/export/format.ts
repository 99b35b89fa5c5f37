/** Names inside an export, and what its parts say of themselves. */

/** Rises when an older Middenry could no longer read what a newer one writes. */
export const EXPORT_FORMAT = 1;

export const README_NAME = 'README.md';
export const HEAD_NAME = 'export.json';
export const PACKAGE_NAME = 'datapackage.json';
export const CHECKSUMS_NAME = 'checksums.sha256';
export const csvName = (table: string): string => `tables/${table}.csv`;
export const jsonName = (table: string): string => `data/${table}.json`;
export const photoName = (file: string): string => `photos/${file}`;

/** Every name that an export may hold; nothing else is ever read, so no name leads out of it. */
export const KNOWN_NAME =
  /^(README\.md|export\.json|datapackage\.json|checksums\.sha256|tables\/[a-z_]{1,60}\.csv|data\/[a-z_]{1,60}\.json|photos\/[0-9a-f]{32}\.jpg)$/;

/** `export.json`: what is needed to read the rest. */
export interface ExportHead {
  readonly format: number;
  /** Number of the newest migration of the store it was written from. */
  readonly schema: number;
  readonly madeAt: string;
  readonly programme: string;
  readonly isDemo: boolean;
  /** Rows by table. */
  readonly rows: Readonly<Record<string, number>>;
  readonly photos: number;
  /** Photos whose file was lost; their rows stay behind. */
  readonly photosLost: number;
  readonly leftOut: Readonly<Record<string, string>>;
}
