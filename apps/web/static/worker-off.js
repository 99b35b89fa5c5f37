/**
 * Served in place of the service worker where OFFLINE is no: takes the pages off every phone that kept them, and then
 * itself. What is noted and not sent yet is in the pages' own store and stays.
 */
self.addEventListener('install', () => void self.skipWaiting());
self.addEventListener('activate', (event) => event.waitUntil(clear()));

async function clear() {
  const ours = (await caches.keys()).filter((name) => name.startsWith('middenry '));
  await Promise.all(ours.map((name) => caches.delete(name)));
  await self.registration.unregister();
}
