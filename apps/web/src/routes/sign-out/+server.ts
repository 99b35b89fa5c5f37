import { redirect } from '@sveltejs/kit';
import { call } from '$lib/api/call.ts';
import { paths } from '$lib/paths/paths.ts';
import type { RequestHandler } from './$types';

export const POST: RequestHandler = async ({ fetch }) => {
  await call(fetch, 'signOut');
  redirect(303, paths.signIn);
};
