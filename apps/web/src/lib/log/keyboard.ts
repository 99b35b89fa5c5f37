/**
 * Keeps what is stuck to the foot of the page above the keyboard of a phone, which covers the page
 * without making it smaller (criteria B5).
 */
export function aboveKeyboard(node: HTMLElement): (() => void) | undefined {
  const view = window.visualViewport;
  if (!view) return undefined;
  const lift = () => {
    // Zoomed in, the person looks at a part of the page, and nothing covers it.
    const covered = view.scale > 1.01 ? 0 : Math.max(0, document.documentElement.clientHeight - view.height - view.offsetTop);
    node.style.insetBlockEnd = covered === 0 ? '' : `${Math.round(covered)}px`;
  };
  view.addEventListener('resize', lift);
  view.addEventListener('scroll', lift);
  lift();
  return () => {
    view.removeEventListener('resize', lift);
    view.removeEventListener('scroll', lift);
  };
}

/** Does something once, as soon as a form is touched, typed in or walked into. */
export function atFirstTouch(act: () => void): (node: HTMLElement) => () => void {
  return (node) => {
    const names = ['pointerdown', 'focusin', 'input'] as const;
    const once = () => {
      stop();
      act();
    };
    const stop = () => {
      for (const name of names) node.removeEventListener(name, once);
    };
    for (const name of names) node.addEventListener(name, once);
    return stop;
  };
}
