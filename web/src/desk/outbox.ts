// What was typed and not yet sent. It stands in the browser's own database before the page says
// it is kept, and goes out in order when there is signal.

import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { ChargeIn, JobLine, JobView, PlanView, ReadingIn, RestsOn, RunIn } from '../api/shapes';
import type { Edit } from '../house/values';

export interface Waiting {
  /** Order of sending, given by the database. */
  n?: number;
  /** Version 7 name made here: sent twice, it counts once. */
  id: string;
  job: string;
  kind: 'edits' | 'test' | 'reading' | 'photo' | 'charge' | 'run';
  at: string;
  base_revision: number;
  edits?: Edit[];
  /** Name of the test that is begun, or that the reading is of. */
  test?: string;
  rests_on?: RestsOn;
  reading?: Pick<ReadingIn, 'pressure' | 'line'>;
  charge?: Omit<ChargeIn, 'id'>;
  run?: Omit<RunIn, 'id'>;
  photo?: { blob: Blob; shows: string; note: string };
  /** What the person did, in words. */
  says: string;
}

export interface KeptJob {
  id: string;
  view: JobView;
  plan: PlanView | null;
  planRevision: number;
  at: string;
}

interface Shelf extends DBSchema {
  jobs: { key: string; value: KeptJob };
  outbox: { key: number; value: Waiting; indexes: { job: string } };
  list: { key: string; value: { key: string; jobs: JobLine[] } };
  day: { key: string; value: { key: string; body: unknown } };
  trace: { key: string; value: { key: string; blob: Blob; x: number; y: number; metres: number } };
}

let open: Promise<IDBPDatabase<Shelf>> | undefined;

export function shelf(name = 'northwall'): Promise<IDBPDatabase<Shelf>> {
  open ??= openDB<Shelf>(name, 1, {
    upgrade(db) {
      db.createObjectStore('jobs', { keyPath: 'id' });
      db.createObjectStore('outbox', { keyPath: 'n', autoIncrement: true }).createIndex('job', 'job');
      db.createObjectStore('list', { keyPath: 'key' });
      db.createObjectStore('day', { keyPath: 'key' });
      db.createObjectStore('trace', { keyPath: 'key' });
    },
  });
  return open;
}

export async function put(w: Waiting): Promise<Waiting> {
  const db = await shelf();
  const tx = db.transaction('outbox', 'readwrite', { durability: 'strict' });
  const n = await tx.store.add(w);
  await tx.done;
  return { ...w, n };
}

export async function waiting(job?: string): Promise<Waiting[]> {
  const db = await shelf();
  return job === undefined ? db.getAll('outbox') : db.getAllFromIndex('outbox', 'job', job);
}

export async function sent(w: Waiting): Promise<void> {
  if (w.n !== undefined) await (await shelf()).delete('outbox', w.n);
}

/**
 * Later changes were typed on top of an earlier one that is now kept: their rows are counted on
 * the revision with it.
 */
export async function rebase(job: string, from: number, to: number): Promise<void> {
  const tx = (await shelf()).transaction('outbox', 'readwrite');
  for (let c = await tx.store.index('job').openCursor(job); c; c = await c.continue()) {
    if (c.value.base_revision === from) await c.update({ ...c.value, base_revision: to });
  }
  await tx.done;
}

/** How the sending of one went. */
export type Answer = 'kept' | 'held' | 'refused' | 'later';

/**
 * Sends everything in order. One sender at a time over all windows of the page; stops at the
 * first that must wait, so that later edits never overtake earlier ones.
 */
export async function flush(send: (w: Waiting) => Promise<Answer>): Promise<'empty' | 'later'> {
  const run = async (): Promise<'empty' | 'later'> => {
    for (;;) {
      const first = (await waiting())[0];
      if (!first) return 'empty';
      const answer = await send(first);
      if (answer === 'later') return 'later';
      await sent(first);
    }
  };
  if (typeof navigator !== 'undefined' && navigator.locks) {
    return await navigator.locks.request('northwall-outbox', run);
  }
  return run();
}
