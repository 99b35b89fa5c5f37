/** Paths that the log page leads nowhere near: its scripts are counted (B26). */
export const farPaths = {
  seasonPhotos: (id: string) => `/season/named/${id}/photos`,
  bringBack: '/setup/export',
  newMaterial: (name: string, next: string) => `/materials?${new URLSearchParams({ name, next })}#add`,
  eraseOther: (person: string) => `/people/erase?person=${person}`,
  shiftCalendar: (id: string) => `/api/shifts/${id}/calendar.ics`,
  dataOf: (person: string) => `/api/people/${person}/data.zip`,
  seasonOf: ({ from, to, siteId }: { readonly from: string; readonly to: string; readonly siteId: string | null }) =>
    `/season?from=${from}&to=${to}${siteId === null ? '' : `&siteId=${siteId}`}`,
} as const;
