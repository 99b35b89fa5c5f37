/** Sets custom properties by script: a page's policy forbids styles in its markup. */
export function sized(
  node: HTMLElement,
  sizes: Readonly<Record<string, string>>,
): { update(sizes: Readonly<Record<string, string>>): void } {
  const set = (all: Readonly<Record<string, string>>) => {
    for (const [name, value] of Object.entries(all)) node.style.setProperty(name, value);
  };
  set(sizes);
  return { update: set };
}
