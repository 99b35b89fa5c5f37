import type { Store } from '../store.ts';

export interface ClassRow {
  readonly id: string;
  readonly siteId: string;
  readonly name: string;
  readonly code: string;
  readonly ageBand: '4-8' | '9-12' | '13-18';
  readonly archived: boolean;
}

const SELECT = 'SELECT id, site_id AS siteId, name, code, age_band AS ageBand, archived FROM class';
type RawClass = Omit<ClassRow, 'archived'> & { readonly archived: number };
const toClass = (raw: RawClass): ClassRow => ({ ...raw, archived: raw.archived === 1 });

export function listClasses(store: Store): readonly ClassRow[] {
  return (store.sql(`${SELECT} ORDER BY name COLLATE NOCASE, id`).all() as RawClass[]).map(toClass);
}

export function findClass(store: Store, id: string): ClassRow | undefined {
  const raw = store.sql(`${SELECT} WHERE id = ?`).get(id) as RawClass | undefined;
  return raw === undefined ? undefined : toClass(raw);
}

export function findClassByCode(store: Store, code: string): ClassRow | undefined {
  const raw = store.sql(`${SELECT} WHERE code = ?`).get(code) as RawClass | undefined;
  return raw === undefined ? undefined : toClass(raw);
}

export function classNameTaken(store: Store, siteId: string, name: string): boolean {
  return store.sql('SELECT 1 FROM class WHERE site_id = ? AND name = ?').get(siteId, name) !== undefined;
}

export function insertClass(store: Store, row: Omit<ClassRow, 'archived'>, at: string): void {
  store
    .sql('INSERT INTO class (id, site_id, name, code, age_band, created_at) VALUES (@id, @siteId, @name, @code, @ageBand, @at)')
    .run({ ...row, at });
}

export interface PupilRow {
  readonly id: string;
  readonly name: string;
  readonly classId: string;
}

const PUPILS = `SELECT p.id, p.name, c.class_id AS classId FROM class_pupil c JOIN person p ON p.id = c.person_id
  WHERE p.disabled = 0 AND p.erased_at IS NULL`;

export function listPupils(store: Store, classId: string): readonly PupilRow[] {
  return store.sql(`${PUPILS} AND c.class_id = ? ORDER BY p.name COLLATE NOCASE, p.id`).all(classId) as PupilRow[];
}

export function findPupil(store: Store, id: string): PupilRow | undefined {
  return store.sql(`${PUPILS} AND p.id = ?`).get(id) as PupilRow | undefined;
}

export function insertPupil(store: Store, personId: string, classId: string): void {
  store.sql('INSERT INTO class_pupil (person_id, class_id) VALUES (?, ?)').run(personId, classId);
}

/** The pupil of this class whose card this is. */
export function findPupilByCard(store: Store, classId: string, cardHash: string): PupilRow | undefined {
  return store
    .sql(`${PUPILS} AND c.class_id = ? AND EXISTS (SELECT 1 FROM credential WHERE person_id = p.id AND kind = 'picture' AND secret = ?)`)
    .get(classId, cardHash) as PupilRow | undefined;
}

/** When the shift that is on at a site now, or begins within the hour, will be over; a local date and time with its length. */
export function shiftsOn(store: Store, siteId: string, dates: readonly [string, string]) {
  return store
    .sql(
      `SELECT id, least_adults AS leastAdults, local_date AS localDate, local_time AS localTime, time_zone AS timeZone, minutes FROM shift
       WHERE site_id = ? AND local_date IN (?, ?) AND cancelled_at IS NULL`,
    )
    .all(siteId, ...dates) as {
    id: string;
    leastAdults: number;
    localDate: string;
    localTime: string;
    timeZone: string;
    minutes: number;
  }[];
}
