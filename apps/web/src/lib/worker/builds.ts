/** The service worker: registered once a page stands, and asked every hour whether there is a newer build (B23). */
import { builds } from './state.svelte.ts';

const LOOK_EVERY_MS = 3_600_000;
let waiting: ServiceWorker | null = null;

/** @returns How to stop looking */
export function watchBuilds(): () => void {
  const workers = navigator.serviceWorker;
  // Plain http away from this machine has none; then pages need the network and notes still wait on the phone.
  if (workers === undefined) return () => undefined;
  let registration: ServiceWorkerRegistration | undefined;
  let lookedAt = Date.now();
  const look = () => {
    waiting = registration?.waiting ?? null;
    builds.newer = waiting !== null && workers.controller !== null;
  };
  const ask = () => {
    if (document.visibilityState !== 'visible' || Date.now() - lookedAt < LOOK_EVERY_MS) return;
    lookedAt = Date.now();
    void registration?.update().catch(() => undefined);
  };
  const watch = (found: ServiceWorkerRegistration) => {
    registration = found;
    found.addEventListener('updatefound', () => found.installing?.addEventListener('statechange', look));
    look();
  };
  // Where a browser lets none in, pages need the network, as on plain http.
  workers
    .register('/service-worker.js')
    .then(watch)
    .catch(() => undefined);
  const timer = setInterval(ask, LOOK_EVERY_MS / 60);
  document.addEventListener('visibilitychange', ask);
  return () => {
    clearInterval(timer);
    document.removeEventListener('visibilitychange', ask);
  };
}

/** Whether something has been typed on this page that a new page would not show. */
export function isHalfFilled(): boolean {
  const fields = document.querySelectorAll<HTMLInputElement | HTMLTextAreaElement>('main input:not([type="hidden"]), main textarea');
  return [...fields].some((field) =>
    field instanceof HTMLInputElement && ['radio', 'checkbox'].includes(field.type)
      ? field.checked !== field.defaultChecked
      : field.value !== field.defaultValue,
  );
}

/** Lets the newer build take over and shows this page anew by it; never called but by a press of whoever reads. */
export function useNewer(): void {
  navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
  waiting?.postMessage('take-over');
}
