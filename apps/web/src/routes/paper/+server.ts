import { redirect } from '@sveltejs/kit';
import { ownPath } from '$lib/paths/paths.ts';
import type { RequestHandler } from './$types';

const YEAR_S = 31_536_000;

/** Turns the paper over where scripts are off. */
export const POST: RequestHandler = async ({ request, cookies }) => {
  const form = await request.formData();
  const paper = cookies.get('paper') === 'night' ? 'day' : 'night';
  cookies.set('paper', paper, { path: '/', maxAge: YEAR_S, sameSite: 'lax', httpOnly: false, secure: false });
  redirect(303, ownPath(String(form.get('back') ?? '/')));
};
