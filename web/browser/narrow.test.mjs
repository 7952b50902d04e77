// The drawings of the server and the tables of choices on a phone: in a column, nothing cut off,
// nothing to be dragged sideways.

import { assert, LAPTOP, person, PHONE, until } from './stage.mjs';

const laid = (page, n = 1) => until(() => page.evaluate((wanted) => {
  const all = [...document.querySelectorAll('.drawn')];
  return all.length === wanted && all.every((d) => (d.shadowRoot?.querySelectorAll('svg text').length ?? 0) > 0) && document.fonts.status === 'loaded';
}, n), 'the drawings are there');

/** What of the page can be pushed sideways, by its name. */
const sideways = (page) => page.evaluate(() => {
  const all = [document.documentElement, ...document.querySelectorAll('main, .sheet, .scroll-x')];
  return all.filter((e) => e.scrollWidth > e.clientWidth).map((e) => `${e.tagName} ${e.getAttribute('aria-label') ?? ''}: ${e.scrollWidth} in ${e.clientWidth}`);
});

/** The drawing as it stands: its paper, the smallest letters in px, words that leave it or run over others. */
const seen = (page, n = 0) => page.evaluate((nth) => {
  const drawn = document.querySelectorAll('.drawn')[nth];
  const svg = drawn.shadowRoot.querySelector('svg');
  const sheet = drawn.getBoundingClientRect();
  const scale = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
  const words = [...svg.querySelectorAll('text')].map((t) => ({ says: t.textContent, size: parseFloat(getComputedStyle(t).fontSize) * scale, r: t.getBoundingClientRect() }));
  const out = words.filter((w) => w.r.left < sheet.left || w.r.right > sheet.right || w.r.bottom > sheet.bottom).map((w) => w.says);
  // The box of a letter has room above and below that the letter does not fill.
  const meet = (a, b) => a.left < b.right - 1 && b.left < a.right - 1 && a.top + 4 < b.bottom - 4 && b.top + 4 < a.bottom - 4;
  const over = words.flatMap((a, i) => words.slice(0, i).filter((b) => meet(a.r, b.r)).map((b) => `${a.says} | ${b.says}`));
  return { paper: svg.viewBox.baseVal.width, least: Math.min(...words.map((w) => w.size)), count: words.length, all: words.map((w) => w.says).join(' '), out, over };
}, n);

/** The drawing is in a column with all its words on the paper; what it says. */
async function whole(page, n, sheet) {
  const s = await seen(page, n);
  assert(s.paper === 360 && s.count > 20, `${sheet} is in a column: ${JSON.stringify(s)}`);
  assert(s.least >= 12, `${sheet}: letters of ${s.least} px`);
  assert(s.out.length === 0, `${sheet}: words leave the paper: ${s.out.join('; ')}`);
  assert(s.over.length === 0, `${sheet}: words run over each other: ${s.over.join('; ')}`);
  return s;
}

/** What a homeowner sees through a link, and the choices side by side. */
async function shared(browser, server) {
  const id = await server.example();
  const { path } = await server.ask('POST', `/api/jobs/${id}/links`, { days: 30 });
  const p = await person(browser, server, { size: PHONE, touch: true, scheme: 'dark' });
  const { page } = p;
  await page.goto(server.url + path);
  await laid(page, 3);
  for (const n of [0, 1, 2]) await whole(page, n, `drawing ${n + 1} of the homeowner`);
  assert((await page.getByText('drag it sideways', { exact: false }).count()) === 0, 'nothing asks to be dragged');
  const wide = await sideways(page);
  assert(wide.length === 0, `the homeowner's page can be pushed sideways: ${wide.join('; ')}`);
  await p.go(`/job/${id}/winter`);
  const choices = page.getByRole('region', { name: 'Choices side by side', exact: true });
  const row = choices.getByRole('row', { name: /^a head in every bedroom/ });
  await row.getByText('landing, 64', { exact: false }).waitFor();
  const of = await choices.evaluate((e) => [e.scrollWidth, e.clientWidth, getComputedStyle(e.querySelector('tbody td[data-of="Carry"] button').closest('td'), '::before').content]);
  assert(of[0] <= of[1] && of[2] === '"Carry"', `each number stands with its name, none is cut off: ${of.join(', ')}`);
  await p.leave();
}

async function column(browser, server) {
  const id = await server.example();
  // Names as long as a job may have them.
  const long = 'the head over the picture window by the wall of the stove';
  const first = await server.ask('GET', `/api/jobs/${id}`);
  await server.ask('POST', `/api/jobs/${id}/changes`, {
    id: crypto.randomUUID(), base_revision: first.revision,
    edits: [['head.living.name', long], ['line.living.head', long], ['drain.living.head', long], ['head_place.living.head', long]].map(([path, value]) => ({ path, value })),
  });
  const p = await person(browser, server, { size: PHONE, touch: true });
  for (const sheet of ['outside', 'lines']) {
    await p.go(`/job/${id}/${sheet}`);
    await laid(p.page);
    assert((await p.page.getByText('drag it sideways', { exact: false }).count()) === 0, `${sheet}: nothing asks to be dragged`);
    const wide = await sideways(p.page);
    assert(wide.length === 0, `${sheet} can be pushed sideways: ${wide.join('; ')}`);
    const s = await whole(p.page, 0, sheet);
    if (sheet === 'lines') assert(s.all.includes(long), `the long name is there in full: ${s.all}`);
  }
  await p.leave();
  const desk = await person(browser, server, { size: LAPTOP });
  await desk.go(`/job/${id}/outside`);
  await laid(desk.page);
  const s = await seen(desk.page);
  assert(s.paper === 520, `a laptop has the drawing of the command: ${s.paper}`);
  await desk.leave();
}

async function whys(browser, server) {
  const id = await server.example();
  const p = await person(browser, server, { size: PHONE, touch: true });
  const { page } = p;
  for (const [sheet, label, says] of [
    ['house', 'Units give', 'most all units give at the design temperature'],
    ['winter', 'Units give', 'most all units give at the design temperature'],
    ['winter', 'On and off', 'hours on and off, of all units'],
    ['winter', 'a head in every bedroom, on and off', 'hours on and off, of all units'],
    ['year', 'On and off', 'hours on and off, of all units'],
  ]) {
    await p.go(`/job/${id}/${sheet}`);
    await page.getByRole('button', { name: `${label}: ` }).first().click();
    await page.getByRole('dialog').getByText(says, { exact: false }).first().waitFor();
    await page.keyboard.press('Escape');
  }
  await p.leave();
}

export const tests = {
  'the wall and the lines on a phone: in a column, in full, nothing sideways': column,
  'the homeowner\'s page and the choices on a phone: in a column, nothing sideways': shared,
  'what the units give and the hours on and off open their why': whys,
};
