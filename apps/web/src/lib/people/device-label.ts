const SYSTEMS: readonly (readonly [RegExp, string])[] = [
  [/iphone|ipad/i, 'iPhone or iPad'],
  [/android/i, 'Android phone'],
  [/windows/i, 'Windows computer'],
  [/mac os/i, 'Mac'],
  [/linux/i, 'Linux computer'],
];

/** What a device is called in the list of one's devices; a rough word is enough to know it again. */
export function deviceLabel(userAgent: string): string {
  return SYSTEMS.find(([pattern]) => pattern.test(userAgent))?.[1] ?? '';
}
