import { redirect } from '@sveltejs/kit';
import { call } from '$lib/api/call.ts';
import { isLanguage, LANGUAGE_COOKIE } from '$lib/messages/languages.ts';
import { ownPath } from '$lib/paths/paths.ts';
import type { RequestHandler } from './$types';

const YEAR_S = 31_536_000;

/** Keeps the chosen language on this device for a year, signed in or not; whoever is signed in is written to in it as well. */
export const POST: RequestHandler = async ({ request, cookies, fetch }) => {
  const form = await request.formData();
  const wanted = String(form.get('language') ?? '');
  if (isLanguage(wanted)) {
    cookies.set(LANGUAGE_COOKIE, wanted, { path: '/', maxAge: YEAR_S, sameSite: 'lax', httpOnly: false, secure: false });
    // Mail and calendar follow. Who is signed out, or a pupil, gets neither, and is refused.
    await call(fetch, 'changeMessageSetting', { body: { language: wanted } });
  }
  redirect(303, ownPath(String(form.get('back') ?? '/')));
};
