import { insertCredential } from '../db/repositories/credential.ts';
import { insertPerson, setMemberships } from '../db/repositories/person.ts';
import { insertProgramme } from '../db/repositories/programme.ts';
import { type Store, write } from '../db/store.ts';
import { hashPassword } from './password.ts';

/** What a programme needs before anybody can sign in. */
export interface Beginning {
  readonly programme: {
    readonly id: string;
    readonly name: string;
    readonly isDemo: boolean;
    readonly timeZone: string;
    readonly units?: 'metric' | 'us';
    readonly locale?: string;
  };
  /** Becomes coordinator and owner. */
  readonly coordinator: { readonly id: string; readonly name: string; readonly email?: string | null; readonly password?: string };
}

/** Makes the programme and its first owner, in a store that has neither. */
export async function beginProgramme(store: Store, now: Date, beginning: Beginning): Promise<void> {
  const { password } = beginning.coordinator;
  const secret = password === undefined ? null : await hashPassword(password);
  write(store, () => insertBeginning(store, now, beginning, secret));
}

/** The rows of a beginning; the password comes hashed, since hashing cannot wait inside a transaction. */
export function insertBeginning(store: Store, now: Date, { programme, coordinator }: Beginning, secret: string | null): void {
  const at = now.toISOString();
  insertProgramme(store, { units: 'metric', locale: 'en-GB', ...programme, createdAt: at });
  insertPerson(store, {
    id: coordinator.id,
    name: coordinator.name,
    email: coordinator.email ?? null,
    isAdult: true,
    owner: true,
    createdAt: at,
  });
  setMemberships(store, coordinator.id, 'coordinator', [], at);
  if (secret !== null) insertCredential(store, { personId: coordinator.id, kind: 'password', secret, createdAt: at });
}
