// The job on the desk: what the server has, what was typed since, and the plan of it.

import { api, reply, sendBytes, type Reply } from '../api/ask';
import type {
  CatalogueUnit, ChargeIn, ChargeView, Conflict, JobLine, JobView, Kept, Me, OpeningView, OptionsView, PhotoView, PlanView, Refusal, RunIn, RunView, Station,
  TestView, Trial, Why, YearView,
} from '../api/shapes';
import { back, look, madeAll, same, type Edit, type Tree } from '../house/values';
import { people, type Numbers } from '../numbers/show';
import { uuid7 } from '../numbers/uuid7';
import { flush, put, rebase, shelf, waiting, type Answer, type Waiting } from './outbox';

interface Done {
  says: string;
  forth: Edit[];
  back: Edit[];
  /** An option that was taken: the server exchanged it, and takes it back by the id of the change. */
  took?: { option: string; change: string };
}

/** Now, with the offset of the place, as a record of readings needs it. */
export function stamp(d = new Date()): string {
  const two = (n: number) => String(Math.floor(Math.abs(n))).padStart(2, '0');
  const off = -d.getTimezoneOffset();
  const local = new Date(d.getTime() + off * 60000).toISOString().slice(0, 19);
  return `${local}${off < 0 ? '-' : '+'}${two(off / 60)}:${two(off % 60)}`;
}

const deep = <T>(v: T): T => JSON.parse(JSON.stringify(v)) as T;

class Desk {
  /** Who looks, where people sign in; none where nobody does, or without signal. */
  me = $state.raw<Me | null>(null);
  /** The server asks who is there. */
  door = $state(false);
  mayChange = $derived(this.me === null || this.me.rights.includes('change'));
  mayMeasure = $derived(this.me === null || this.me.rights.includes('measure'));
  mayManage = $derived(this.me?.sign_in === true && this.me.rights.includes('manage'));

  /** Units a job may name, and weather; asked for once. */
  catalogue = $state.raw<CatalogueUnit[]>([]);
  stations = $state.raw<Station[]>([]);
  jobs = $state.raw<JobLine[]>([]);
  listState = $state<'asking' | 'now' | 'kept'>('asking');
  base = $state.raw<JobView | null>(null);
  plan = $state.raw<PlanView | null>(null);
  planRevision = $state(0);
  planState = $state<'none' | 'asking' | 'now' | 'kept'>('none');
  pending = $state.raw<Waiting[]>([]);
  signal = $state<'asking' | 'there' | 'none'>('asking');
  /** What was refused, and what had been typed: it is shown until the person has seen it. */
  refused = $state.raw<{ says: string; refusal: Refusal; typed?: string[] } | null>(null);
  conflicts = $state.raw<Conflict[]>([]);
  done = $state.raw<Done[]>([]);
  undone = $state.raw<Done[]>([]);
  trial = $state.raw<Trial | null>(null);
  tests = $state.raw<Record<string, TestView>>({});
  /** The choices of equipment side by side, each with its own year. */
  options = $state.raw<OptionsView | null>(null);
  /** Charge and first run: what the sheets ask, what was weighed and read. */
  opening = $state.raw<OpeningView | null>(null);
  said = $state('');
  si = $state(read('northwall.units') === 'si');
  who = $state(read('northwall.who'));

  values = $derived<Tree>(
    this.base
      ? madeAll(this.base.values, this.pending.filter((w) => w.job === this.base?.id).flatMap((w) => w.edits ?? []))
      : {},
  );
  behind = $derived(this.pending.filter((w) => w.job === this.base?.id && w.kind === 'edits').length);
  numbers = $derived<Numbers>(people(this.si));

  #planAsked = 0;
  #trialAsked: AbortController | null = null;

  units(si: boolean): void {
    this.si = si;
    keep('northwall.units', si ? 'si' : 'us');
    void this.replan();
  }

  named(who: string): void {
    this.who = who;
    keep('northwall.who', who);
  }

  async whoIsThere(): Promise<void> {
    const got = await reply<Me>(api.GET('/api/me'));
    if (got.end === 'good') {
      this.me = got.value.sign_in ? got.value : null;
      if (got.value.sign_in) this.who = got.value.name;
      this.door = false;
    } else if (got.end === 'refused' && got.status === 401) this.door = true;
  }

  /** Out, and nothing of the firm stays on this device. */
  async leave(): Promise<void> {
    await reply(api.POST('/api/sign-out'));
    const db = await shelf();
    for (const kept of ['jobs', 'list', 'day', 'trace'] as const) await db.clear(kept);
    this.close();
    this.jobs = [];
    this.me = null;
    this.door = true;
  }

  async list(): Promise<void> {
    this.listState = 'asking';
    const got = await reply<{ jobs: JobLine[] }>(api.GET('/api/jobs'));
    const db = await shelf();
    if (got.end === 'good') {
      this.jobs = got.value.jobs;
      this.listState = 'now';
      this.signal = 'there';
      await db.put('list', { key: 'jobs', jobs: got.value.jobs });
      return;
    }
    if (got.end === 'refused' && got.status === 401) this.door = true;
    if (got.end === 'no signal') this.signal = 'none';
    this.jobs = (await db.get('list', 'jobs'))?.jobs ?? [];
    this.listState = 'kept';
  }

  #opened = '';

  async open(id: string): Promise<boolean> {
    this.#opened = id;
    if (this.base?.id !== id) {
      this.base = null;
      this.plan = null;
      this.planState = 'asking';
      this.done = [];
      this.undone = [];
      this.conflicts = [];
      this.tests = {};
      this.opening = null;
      this.options = null;
      this.refused = null;
      const kept = await (await shelf()).get('jobs', id);
      if (kept && this.#opened === id && this.base === null) {
        this.base = kept.view;
        this.plan = kept.plan;
        this.planRevision = kept.planRevision;
        this.planState = kept.plan ? 'kept' : 'none';
        this.conflicts = kept.view.conflicts;
      }
    }
    this.pending = await waiting();
    await this.sync();
    return this.base !== null;
  }

  /** What there is to choose from. */
  async lists(): Promise<void> {
    const db = await shelf();
    const keep = async <T>(key: string, got: Reply<T[]>): Promise<T[]> => {
      if (got.end !== 'good') return ((await db.get('day', key))?.body ?? []) as T[];
      await db.put('day', { key, body: got.value });
      return got.value;
    };
    if (this.catalogue.length === 0) this.catalogue = await keep('catalogue', await reply<CatalogueUnit[]>(api.GET('/api/catalogue')));
    if (this.stations.length === 0) this.stations = await keep('stations', await reply<Station[]>(api.GET('/api/weather')));
  }

  close(): void {
    this.#opened = '';
    this.base = null;
    this.plan = null;
  }

  /** Fetches the job anew, and its plan. */
  async refresh(): Promise<void> {
    const id = this.#opened;
    if (!id) return;
    const planning = this.replan();
    const got = await reply<JobView>(api.GET('/api/jobs/{id}', { params: { path: { id } } }));
    // Together, so that an edit is never shown twice: once kept and once still waiting.
    const left = await waiting();
    if (this.#opened !== id) return;
    if (got.end === 'good') {
      this.signal = 'there';
      this.base = got.value;
      this.pending = left;
      this.conflicts = got.value.conflicts;
    } else if (got.end === 'no signal') this.signal = 'none';
    else if (got.status === 401) this.door = true;
    else this.refused = { says: 'The job did not open.', refusal: got.refusal };
    await planning;
    await this.#keep();
  }

  async replan(): Promise<void> {
    const id = this.#opened;
    if (!id) return;
    this.#planAsked += 1;
    const asked = this.#planAsked;
    if (this.planState !== 'kept') this.planState = 'asking';
    const got = await reply<PlanView>(api.GET('/api/jobs/{id}/plan', { params: { path: { id }, query: { si: this.si } } }));
    if (asked !== this.#planAsked || this.#opened !== id) return;
    if (got.end === 'good') {
      this.signal = 'there';
      this.plan = got.value;
      this.planRevision = got.value.revision;
      this.planState = 'now';
      this.trial = null;
    } else if (got.end === 'no signal') {
      this.signal = 'none';
      this.planState = this.plan ? 'kept' : 'none';
    } else {
      this.planState = this.plan ? 'kept' : 'none';
      if (got.status === 401) this.door = true;
      else this.refused = { says: 'The plan could not be made.', refusal: got.refusal };
    }
  }

  async #keep(): Promise<void> {
    if (!this.base) return;
    const db = await shelf();
    await db.put('jobs', {
      id: this.base.id, view: deep(this.base), plan: this.plan ? deep(this.plan) : null,
      planRevision: this.planRevision, at: stamp(),
    });
  }

  /** Makes a change: done when it is kept here; it goes to the server as soon as there is signal. */
  async change(says: string, edits: { path: string; value: Edit['value'] }[], history = true): Promise<void> {
    const base = this.base;
    if (!base || edits.length === 0) return;
    let now = this.values;
    const forth: Edit[] = [];
    for (const e of deep(edits)) {
      const adds = typeof e.value === 'object' && e.value !== null && !Array.isArray(e.value) && Array.isArray(look(now, e.path));
      const edit = { ...e, was: adds ? null : (look(now, e.path) ?? null) };
      if (!adds && same(edit.was, edit.value)) continue;
      forth.push(edit);
      now = madeAll(now, [edit]);
    }
    if (forth.length === 0) return;
    if (history) {
      this.done = [...this.done, { says, forth, back: back(this.values, forth) }];
      this.undone = [];
    }
    this.refused = null;
    this.said = says;
    const kept = await put({
      id: uuid7(), job: base.id, kind: 'edits', at: stamp(), base_revision: base.revision, edits: forth, says,
    });
    if (!this.pending.some((w) => w.n === kept.n)) this.pending = [...this.pending, kept];
    this.#persist();
    void this.sync();
  }

  async undo(): Promise<void> {
    const last = this.done[this.done.length - 1];
    if (!last) return;
    if (last.took && !(await this.#untaken(last.took.change))) return;
    this.done = this.done.slice(0, -1);
    this.undone = [...this.undone, last];
    if (last.took) this.said = `undone: ${last.says}`;
    else await this.change(`undone: ${last.says}`, last.back, false);
  }

  async redo(): Promise<void> {
    const last = this.undone[this.undone.length - 1];
    if (!last) return;
    const left = this.undone.slice(0, -1);
    if (last.took) {
      if (await this.take(last.took.option)) this.undone = left;
      return;
    }
    this.undone = left;
    this.done = [...this.done, last];
    await this.change(`again: ${last.says}`, last.forth, false);
  }

  /** Takes an option. The server exchanges the equipment in one step, so this needs signal. */
  async take(option: string): Promise<boolean> {
    const id = uuid7();
    const kept = await this.#inOneStep('Not taken.', (job) => reply<Kept>(
      api.POST('/api/jobs/{id}/options/taken', { params: { path: { id: job } }, body: { id, option, at: stamp(), who: this.who || undefined } }),
    ));
    if (!kept) return false;
    this.said = `took ${option}`;
    this.done = [...this.done, { says: this.said, forth: [], back: [], took: { option, change: id } }];
    this.undone = [];
    return true;
  }

  #untaken(change: string): Promise<boolean> {
    const body = { id: uuid7(), at: stamp(), who: this.who || undefined };
    return this.#inOneStep('Not put back.', (id) => reply<Kept>(api.POST('/api/jobs/{id}/changes/{change}/undo', { params: { path: { id, change } }, body })));
  }

  /** A change only the server can make, on top of all that was typed here. */
  async #inOneStep(not: string, ask: (job: string) => Promise<Reply<Kept>>): Promise<boolean> {
    const job = this.base?.id;
    if (!job) return false;
    this.refused = null;
    await this.sync();
    const got: Reply<Kept> = this.behind > 0 ? { end: 'no signal' } : await ask(job);
    if (got.end === 'no signal') {
      this.refused = { says: not, refusal: { kind: 'no-signal', says: 'The server exchanges the equipment in one step, and there is no signal now.', got: '', allowed: '', mend: 'Do it again when there is.', problems: [] } };
    } else if (got.end === 'refused') this.refused = { says: not, refusal: got.refusal };
    if (got.end === 'good') await this.refresh();
    return got.end === 'good';
  }

  /** A photo or a reading, by the same safe way out. */
  async queue(w: Omit<Waiting, 'id' | 'at' | 'base_revision'>): Promise<void> {
    const kept = await put({ ...w, id: uuid7(), at: stamp(), base_revision: this.base?.revision ?? 0 });
    if (!this.pending.some((w) => w.n === kept.n)) this.pending = [...this.pending, kept];
    this.said = w.says;
    this.#persist();
    void this.sync();
  }

  /** Asks the browser not to clear what was typed when space runs short. */
  #persist(): void {
    void navigator.storage?.persist?.();
  }

  #syncing: Promise<void> | null = null;
  #again = false;

  /** Sends what waits, then fetches the job. One at a time; a call meanwhile runs once after. */
  sync(): Promise<void> {
    if (this.#syncing) {
      this.#again = true;
      return this.#syncing;
    }
    this.#syncing = (async () => {
      do {
        this.#again = false;
        await flush((w) => this.#send(w));
        await this.refresh();
        this.pending = await waiting();
      } while (this.#again);
    })().finally(() => {
      this.#syncing = null;
    });
    return this.#syncing;
  }

  async #send(w: Waiting): Promise<Answer> {
    const who = this.who || undefined;
    const path = { id: w.job };
    if (w.kind === 'photo' && w.photo) {
      const q = new URLSearchParams({ id: w.id, shows: w.photo.shows, note: w.photo.note, at: w.at });
      if (who) q.set('who', who);
      return this.#answer(await sendBytes<PhotoView>(`/api/jobs/${w.job}/photos?${q}`, w.photo.blob), w);
    }
    if (w.charge || w.run) {
      const got = w.charge
        ? await reply<ChargeView>(api.POST('/api/jobs/{id}/charges', { params: { path }, body: { ...w.charge, id: w.id, at: w.at, who } }))
        : await reply<RunView>(api.POST('/api/jobs/{id}/runs', { params: { path }, body: { ...(w.run as RunIn), id: w.id, at: w.at, who } }));
      if (got.end === 'good') void this.openOpening();
      return this.#answer<ChargeView | RunView>(got, w);
    }
    if (w.test) {
      if (w.rests_on) return this.#tested(await reply<TestView>(api.POST('/api/jobs/{id}/tests', { params: { path }, body: { id: w.id, at: w.at, who, test: w.test, rests_on: w.rests_on } })), w);
      const got = await reply<{ test: TestView }>(api.POST('/api/jobs/{id}/readings', {
        params: { path }, body: { test: w.test, who, readings: [{ ...(w.reading ?? { pressure: '' }), id: w.id, at: w.at }] },
      }));
      return this.#tested(got.end === 'good' ? { end: 'good', value: got.value.test } : got, w);
    }
    let base = w.base_revision;
    for (let next = this.#mine.get(`${w.job} ${base}`); next !== undefined; next = this.#mine.get(`${w.job} ${base}`)) base = next;
    const got = await reply<Kept>(api.POST('/api/jobs/{id}/changes', {
      params: { path }, body: { id: w.id, base_revision: base, at: w.at, who, edits: w.edits ?? [] },
    }));
    if (got.end === 'good' && got.value.revision === base + 1) {
      // Nobody came between: what was typed on top of this change counts its rows with it.
      this.#mine.set(`${w.job} ${base}`, base + 1);
      await rebase(w.job, w.base_revision, base + 1);
    }
    return this.#answer(got, w);
  }
  /** Revisions that only this page's own change lies between. */
  #mine = new Map<string, number>();

  #tested(got: Reply<TestView>, w: Waiting): Answer {
    if (got.end === 'good') this.#heard(w.job, got.value);
    return this.#answer(got, w);
  }

  /** A test with its verdict: shown, and kept for an opening without signal. */
  #heard(job: string, test: TestView): void {
    if (this.base?.id !== job) return;
    this.tests = { ...this.tests, [test.test]: test };
    const kept = deep(this.tests);
    void shelf().then((db) => db.put('day', { key: job, body: kept }));
  }

  /** One test anew: somebody else may read the same gauge. */
  async openTest(name: string): Promise<void> {
    const id = this.base?.id;
    if (!id || !name) return;
    const got = await reply<TestView>(api.GET('/api/jobs/{id}/tests/{test}', { params: { path: { id, test: name } } }));
    if (got.end === 'good') this.#heard(id, got.value);
  }

  /** The tests of the day with their readings and verdicts; kept ones where there is no signal. */
  async openTests(): Promise<void> {
    const id = this.base?.id;
    if (!id) return;
    const db = await shelf();
    const list = await reply<{ test: string }[]>(api.GET('/api/jobs/{id}/tests', { params: { path: { id } } }));
    if (list.end === 'good') {
      const out: Record<string, TestView> = {};
      for (const t of list.value) {
        const one = await reply<TestView>(api.GET('/api/jobs/{id}/tests/{test}', { params: { path: { id, test: t.test } } }));
        if (one.end === 'good') out[t.test] = one.value;
      }
      if (this.base?.id !== id) return;
      this.tests = out;
      await db.put('day', { key: id, body: deep(out) });
    } else if (Object.keys(this.tests).length === 0) {
      this.tests = ((await db.get('day', id))?.body ?? {}) as Record<string, TestView>;
    }
  }

  /** The choices side by side for a revision; the kept ones where there is no signal. */
  async openOptions(revision: number): Promise<void> {
    const id = this.base?.id;
    if (!id || this.options?.revision === revision) return;
    const db = await shelf();
    const got = await reply<OptionsView>(api.GET('/api/jobs/{id}/options', { params: { path: { id } } }));
    if (this.base?.id !== id) return;
    if (got.end === 'good') {
      this.options = got.value;
      await db.put('day', { key: `${id} options`, body: deep(got.value) });
    } else this.options ??= ((await db.get('day', `${id} options`))?.body ?? null) as OptionsView | null;
  }

  /** Charge and first run; the kept ones where there is no signal. */
  async openOpening(): Promise<void> {
    const id = this.base?.id;
    if (!id) return;
    const db = await shelf();
    const got = await reply<OpeningView>(api.GET('/api/jobs/{id}/opening', { params: { path: { id } } }));
    if (this.base?.id !== id) return;
    if (got.end === 'good') {
      this.opening = got.value;
      await db.put('day', { key: `${id} opening`, body: deep(got.value) });
    } else this.opening ??= ((await db.get('day', `${id} opening`))?.body ?? null) as OpeningView | null;
  }

  /** The verdict of what is being typed; words where there is none. Nothing is kept. */
  async tryOpening<T extends ChargeView | RunView>(to: 'charges' | 'runs', body: Omit<ChargeIn, 'id'> | Omit<RunIn, 'id'>): Promise<T | string> {
    const id = this.base?.id;
    if (!id) return 'No job is open.';
    const whole = { ...body, id: uuid7(), trial: true };
    const params = { params: { path: { id } } };
    const got = to === 'charges'
      ? await reply<T>(api.POST('/api/jobs/{id}/charges', { ...params, body: whole as ChargeIn }))
      : await reply<T>(api.POST('/api/jobs/{id}/runs', { ...params, body: whole as RunIn }));
    if (got.end === 'good') return got.value;
    if (got.end === 'no signal') return 'The verdict is worked out by the server; there is no signal now. Keep it: it is judged when there is.';
    return [got.refusal.says, got.refusal.allowed && `Usable: ${got.refusal.allowed}.`, got.refusal.mend].filter(Boolean).join(' ');
  }

  #answer<T>(got: Reply<T>, w: Waiting): Answer {
    if (got.end === 'good') {
      this.signal = 'there';
      return 'kept';
    }
    if (got.end === 'no signal') {
      this.signal = 'none';
      return 'later';
    }
    if (got.status === 401 || got.status === 429 || got.status >= 500) {
      if (got.status === 401) this.door = true;
      else this.refused = { says: 'Not sent yet; it stays kept here.', refusal: got.refusal };
      return 'later';
    }
    if (got.status === 409) return 'held';
    this.refused = {
      says: `Not kept: ${w.says}.`, refusal: got.refusal,
      typed: (w.edits ?? []).map((e) => `${e.path}: ${typeof e.value === 'string' ? e.value : JSON.stringify(e.value)}`),
    };
    this.done = this.done.filter((d) => !same(d.forth as never, (w.edits ?? []) as never));
    return 'refused';
  }

  /** What edits would give, while a wall is dragged. Nothing is kept. */
  async tryOut(edits: { path: string; value: Edit['value'] }[]): Promise<void> {
    const base = this.base;
    if (!base || this.signal !== 'there' || this.behind > 0) return;
    this.#trialAsked?.abort();
    const mine = new AbortController();
    this.#trialAsked = mine;
    const got = await reply<Trial>(api.POST('/api/jobs/{id}/trial', { params: { path: { id: base.id } }, body: { edits: deep(edits) }, signal: mine.signal }));
    if (mine.signal.aborted) return;
    if (got.end === 'good') this.trial = got.value;
  }

  endTrial(): void {
    this.#trialAsked?.abort();
    this.trial = null;
  }

  async settle(c: Conflict, keepWhich: 'mine' | 'theirs'): Promise<void> {
    const base = this.base;
    if (!base) return;
    const got = await reply<Kept>(api.POST('/api/jobs/{id}/conflicts/{change}/settle', {
      params: { path: { id: base.id, change: c.id } }, body: { id: uuid7(), at: stamp(), who: this.who || undefined, keep: keepWhich },
    }));
    if (got.end === 'refused') this.refused = { says: 'Not settled.', refusal: got.refusal };
    if (got.end === 'no signal') this.signal = 'none';
    await this.refresh();
  }

  async why(key: string): Promise<Why | string> {
    const base = this.base;
    if (!base) return 'No job is open.';
    const params = { path: { id: base.id, key }, query: { si: this.si } };
    // Bands are worked out beside the plan, and their figures with them.
    const asked = key.startsWith('bands.') ? api.GET('/api/jobs/{id}/bands/why/{key}', { params }) : api.GET('/api/jobs/{id}/why/{key}', { params });
    const got = await reply<Why>(asked);
    if (got.end === 'good') return got.value;
    if (got.end === 'no signal') return 'The way of this number is worked out by the server; there is no signal now.';
    return got.refusal.says;
  }

  /** Figures whose keys begin so. */
  async figures(beginning: string): Promise<{ key: string; what: string; value?: number | null; shown: string }[]> {
    const base = this.base;
    if (!base) return [];
    const got = await reply<{ figures: { key: string; what: string; value?: number | null; shown: string }[] }>(
      api.GET('/api/jobs/{id}/figures', { params: { path: { id: base.id }, query: { beginning, si: this.si } } }),
    );
    return got.end === 'good' ? got.value.figures : [];
  }

  async year(): Promise<YearView | string> {
    const base = this.base;
    if (!base) return 'No job is open.';
    const got = await reply<YearView>(api.GET('/api/jobs/{id}/year', { params: { path: { id: base.id } } }));
    if (got.end === 'good') return got.value;
    if (got.end === 'no signal') return 'The hours of the year are on the server; there is no signal now.';
    return got.refusal.says;
  }

  async newJob(from: { template: 'first' | 'example'; weather?: string } | { text: string }, name: string): Promise<string | null> {
    const id = uuid7();
    const got = await reply<JobView>(api.POST('/api/jobs', { body: { id, name, at: stamp(), who: this.who || undefined, ...from } }));
    if (got.end === 'good') return got.value.id ?? id;
    if (got.end === 'refused') this.refused = { says: 'No new job was made.', refusal: got.refusal };
    else this.refused = { says: 'A new job needs signal.', refusal: { kind: 'no-signal', says: 'There is no signal now.', got: '', allowed: '', mend: 'Try again when there is.', problems: [] } };
    return null;
  }
}

function read(key: string): string {
  try {
    return localStorage.getItem(key) ?? '';
  } catch {
    return '';
  }
}

function keep(key: string, value: string): void {
  try {
    localStorage.setItem(key, value);
  } catch {
    // A private window may refuse; the choice then lasts until it closes.
  }
}

export const desk = new Desk();
