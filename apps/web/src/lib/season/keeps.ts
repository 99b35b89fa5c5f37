/** Who keeps a season: coordinators all, a lead of every site too, any other lead those of their sites. */
interface Keeper {
  readonly role: string;
  readonly siteIds: readonly string[];
}

export const keepsSeason = ({ role, siteIds }: Keeper, siteId: string | null): boolean =>
  role === 'coordinator' || siteIds.length === 0 || (siteId !== null && siteIds.includes(siteId));
