// Asks the server. Three ends: an answer, a refusal in words, or no signal.

import createClient from 'openapi-fetch';
import type { paths } from './schema';
import type { Refusal } from './shapes';

export const api = createClient<paths>({ credentials: 'same-origin' });

export type Reply<T> =
  | { end: 'good'; value: T }
  | { end: 'refused'; status: number; refusal: Refusal }
  | { end: 'no signal' };

const PLAIN: Refusal = { kind: 'defect', says: 'The server answered in a way this page does not know.', got: '', allowed: '', mend: 'Try again.', problems: [] };

interface Raw {
  data?: unknown;
  error?: unknown;
  response: Response;
}

/** `T` is the shape of the answer, from the same description as the path. */
export async function reply<T>(asked: Promise<Raw>): Promise<Reply<T>> {
  let raw: Raw;
  try {
    raw = await asked;
  } catch {
    return { end: 'no signal' };
  }
  const status = raw.response.status;
  // A proxy that has lost its server is no signal either.
  if (status === 502 || status === 503 || status === 504) return { end: 'no signal' };
  if (raw.response.ok) return { end: 'good', value: raw.data as T };
  const e = raw.error;
  const refusal = typeof e === 'object' && e !== null && 'says' in e ? { ...PLAIN, ...(e as Partial<Refusal>) } : PLAIN;
  return { end: 'refused', status, refusal };
}

/** Sends bytes: the description has two parameters named `id` here, which no client can tell apart. */
export async function sendBytes<T>(path: string, bytes: Blob): Promise<Reply<T>> {
  return reply<T>(
    fetch(path, { method: 'POST', credentials: 'same-origin', headers: { 'content-type': bytes.type || 'application/octet-stream' }, body: bytes }).then(async (response) => {
      const body: unknown = await response.json().catch(() => null);
      return { data: body, error: body, response };
    }),
  );
}
