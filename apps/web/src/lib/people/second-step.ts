/** What the forms of the second step do, on whichever page they stand. */
import { fail, type RequestEvent } from '@sveltejs/kit';
import { act, text } from '../errors/act.ts';
import { qrSvg } from './qr.ts';

const squareOf = async (secret: string, uri: string) => ({ secret, uri, qr: await qrSvg(uri) });

export async function startSecondStep({ request, fetch }: Pick<RequestEvent, 'request' | 'fetch'>) {
  const outcome = await act(fetch, 'startTotp', { body: {} }, await request.formData());
  return outcome.ok ? { totp: await squareOf(outcome.data.secret, outcome.data.uri) } : outcome.refused;
}

/** After a wrong code the same square is shown again: it is in the authenticator already. */
export async function confirmSecondStep({ request, fetch }: Pick<RequestEvent, 'request' | 'fetch'>) {
  const form = await request.formData();
  const outcome = await act(fetch, 'confirmTotp', { body: { code: text(form, 'code') } }, form);
  if (outcome.ok) return { recovery: outcome.data.recoveryCodes };
  const { status, data } = outcome.refused;
  return fail(status, { ...data, totp: await squareOf(text(form, 'secret'), text(form, 'uri')) });
}
