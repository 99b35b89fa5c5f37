import { randomUUID } from 'node:crypto';
import { eq } from 'drizzle-orm';
import { person } from '../schema/people.ts';
import type { Store } from '../store.ts';

export type RoleName = 'pupil' | 'volunteer' | 'site-lead' | 'coordinator';

export interface PersonRow {
  readonly id: string;
  readonly name: string;
  readonly email: string | null;
  readonly isAdult: boolean;
  /** By a coordinator: counts as an adult where pupils are. */
  readonly cleared: boolean;
  readonly owner: boolean;
  readonly disabled: boolean;
  readonly createdAt: string;
  readonly role: RoleName;
  readonly siteIds: readonly string[];
}

const SELECT = `SELECT p.id, p.name, p.email, p.is_adult AS isAdult, (p.cleared_at IS NOT NULL) AS cleared, p.owner, p.disabled, p.created_at AS createdAt,
    (SELECT role FROM membership WHERE person_id = p.id LIMIT 1) AS role,
    (SELECT json_group_array(site_id) FILTER (WHERE site_id IS NOT NULL) FROM membership WHERE person_id = p.id) AS siteIds
  FROM person p WHERE p.erased_at IS NULL`;

type RawPerson = Omit<PersonRow, 'siteIds'> & { readonly siteIds: string };

const toPerson = (raw: RawPerson): PersonRow => ({
  ...raw,
  isAdult: Boolean(raw.isAdult),
  cleared: Boolean(raw.cleared),
  owner: Boolean(raw.owner),
  disabled: Boolean(raw.disabled),
  siteIds: JSON.parse(raw.siteIds) as string[],
});

export function listPersons(store: Store): readonly PersonRow[] {
  return (store.sql(`${SELECT} ORDER BY p.name COLLATE NOCASE, p.id`).all() as RawPerson[]).map(toPerson);
}

export function findPerson(store: Store, id: string): PersonRow | undefined {
  const raw = store.sql(`${SELECT} AND p.id = ?`).get(id) as RawPerson | undefined;
  return raw === undefined ? undefined : toPerson(raw);
}

export function findPersonByEmail(store: Store, email: string): PersonRow | undefined {
  const raw = store.sql(`${SELECT} AND p.email = ?`).get(email) as RawPerson | undefined;
  return raw === undefined ? undefined : toPerson(raw);
}

/** The first active adult in a role, the one who came first; owners before others. */
export function firstInRole(store: Store, role: RoleName): PersonRow | undefined {
  const raw = store
    .sql(
      `${SELECT} AND p.disabled = 0 AND p.is_adult = 1
         AND EXISTS (SELECT 1 FROM membership WHERE person_id = p.id AND role = ?)
       ORDER BY p.owner DESC, p.created_at, p.id LIMIT 1`,
    )
    .get(role) as RawPerson | undefined;
  return raw === undefined ? undefined : toPerson(raw);
}

interface PersonNewRow {
  readonly id: string;
  readonly name: string;
  readonly email: string | null;
  readonly isAdult: boolean;
  readonly owner: boolean;
  readonly createdAt: string;
}

export function insertPerson(store: Store, row: PersonNewRow): void {
  store.orm.insert(person).values(row).run();
}

type PersonChangeRow = Partial<Pick<PersonRow, 'name' | 'email' | 'isAdult' | 'owner' | 'disabled'>> & {
  readonly clearedAt?: string | null;
};

export function updatePerson(store: Store, id: string, change: PersonChangeRow): void {
  if (Object.keys(change).length > 0) store.orm.update(person).set(change).where(eq(person.id, id)).run();
}

/** One role for a person, at these sites; at none in particular means everywhere. */
export function setMemberships(store: Store, personId: string, role: RoleName, siteIds: readonly string[], at: string): void {
  store.sql('DELETE FROM membership WHERE person_id = ?').run(personId);
  const insert = store.sql('INSERT INTO membership (id, person_id, site_id, role, created_at) VALUES (?, ?, ?, ?, ?)');
  for (const siteId of siteIds.length === 0 ? [null] : siteIds) insert.run(randomUUID(), personId, siteId, role, at);
}

/** Owners who can still sign in. */
export function countOwners(store: Store): number {
  return Number(store.sql('SELECT count(*) AS n FROM person WHERE owner = 1 AND disabled = 0 AND erased_at IS NULL').pluck().get());
}
