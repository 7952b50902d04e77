// Asks the server. Three ends: an answer, a refusal in words, or no signal.

import type { Refusal } from './shapes';

export type Reply<T> =
  | { end: 'good'; value: T }
  | { end: 'refused'; status: number; refusal: Refusal; body: unknown }
  | { end: 'no signal' };

const PLAIN: Refusal = { kind: 'defect', says: 'The server answered in a way this page does not know.', got: '', allowed: '', mend: 'Try again.', problems: [] };

export async function ask<T>(method: string, path: string, body?: unknown, signal?: AbortSignal): Promise<Reply<T>> {
  let answer: Response;
  try {
    const blob = body instanceof Blob;
    answer = await fetch(path, {
      method,
      credentials: 'same-origin',
      headers: body === undefined || blob ? {} : { 'content-type': 'application/json' },
      ...(body === undefined ? {} : { body: blob ? body : JSON.stringify(body) }),
      ...(signal ? { signal } : {}),
    });
  } catch {
    return { end: 'no signal' };
  }
  // A proxy that has lost its server is no signal either.
  if (answer.status === 502 || answer.status === 503 || answer.status === 504) return { end: 'no signal' };
  let out: unknown;
  try {
    const type = answer.headers.get('content-type') ?? '';
    out = type.includes('json') ? await answer.json() : await answer.text();
  } catch {
    return { end: 'no signal' };
  }
  if (answer.ok) return { end: 'good', value: out as T };
  const refusal = typeof out === 'object' && out !== null && 'says' in out ? { ...PLAIN, ...(out as Partial<Refusal>) } : PLAIN;
  return { end: 'refused', status: answer.status, refusal, body: out };
}
