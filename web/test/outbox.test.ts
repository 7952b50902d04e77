import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it } from 'vitest';
import { flush, put, rebase, shelf, waiting, type Answer, type Waiting } from '../src/desk/outbox';
import { uuid7 } from '../src/numbers/uuid7';

const one = (says: string): Waiting => ({ id: uuid7(), job: 'j', kind: 'edits', at: '2026-11-25T10:00:00-05:00', base_revision: 1, edits: [], says });

beforeEach(async () => {
  await (await shelf()).clear('outbox');
});

describe('what waits to be sent', () => {
  it('goes out in the order it was typed', async () => {
    for (const s of ['1', '2', '3']) await put(one(s));
    const seen: string[] = [];
    expect(await flush(async (w) => (seen.push(w.says), 'kept' as Answer))).toBe('empty');
    expect(seen).toEqual(['1', '2', '3']);
    expect(await waiting()).toEqual([]);
  });
  it('stays, all of it and in order, where there is no signal', async () => {
    for (const s of ['1', '2', '3']) await put(one(s));
    expect(await flush(async (w) => (w.says === '2' ? 'later' : 'kept'))).toBe('later');
    expect((await waiting()).map((w) => w.says)).toEqual(['2', '3']);
  });
  it('is the same change when it is sent twice', async () => {
    const kept = await put(one('1'));
    const ids: string[] = [];
    await flush(async (w) => (ids.push(w.id), 'later' as Answer));
    await flush(async (w) => (ids.push(w.id), 'kept' as Answer));
    expect(ids).toEqual([kept.id, kept.id]);
  });
  it('lets a change held back or refused go on to the next', async () => {
    for (const s of ['1', '2']) await put(one(s));
    const seen: string[] = [];
    await flush(async (w) => (seen.push(w.says), w.says === '1' ? ('held' as Answer) : ('refused' as Answer)));
    expect(seen).toEqual(['1', '2']);
    expect(await waiting()).toEqual([]);
  });
});

describe('changes typed on top of one another', () => {
  it('count their rows on the revision of the one before', async () => {
    for (const [says, base] of [['1', 5], ['2', 5], ['3', 4]] as const) await put({ ...one(says), base_revision: base });
    await put({ ...one('other job'), job: 'k', base_revision: 5 });
    await rebase('j', 5, 6);
    expect((await waiting()).map((w) => [w.says, w.base_revision])).toEqual([['1', 6], ['2', 6], ['3', 4], ['other job', 5]]);
  });
});

describe('names of changes', () => {
  it('are version 7, sort by time, and carry their bits', () => {
    const a = uuid7(1_700_000_000_000, new Uint8Array(10).fill(255));
    const b = uuid7(1_700_000_000_001, new Uint8Array(10).fill(0));
    expect(a).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    expect(b).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    expect(a < b).toBe(true);
    expect(new Set(Array.from({ length: 1000 }, () => uuid7())).size).toBe(1000);
  });
});
