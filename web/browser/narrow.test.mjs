// The drawings of the wall and of the lines on a phone: in a column, nothing cut off, nothing to be
// dragged sideways.

import { assert, LAPTOP, person, PHONE, until } from './stage.mjs';

const laid = (page) => until(() => page.evaluate(() => document.querySelector('.drawn')?.shadowRoot?.querySelector('svg text') !== null && document.querySelector('.drawn')?.shadowRoot?.querySelector('svg text') !== undefined), 'the drawing is there');

/** What of the page can be pushed sideways, by its name. */
const sideways = (page) => page.evaluate(() => {
  const all = [document.documentElement, ...document.querySelectorAll('main, .sheet, .scroll-x')];
  return all.filter((e) => e.scrollWidth > e.clientWidth).map((e) => `${e.tagName} ${e.getAttribute('aria-label') ?? ''}: ${e.scrollWidth} in ${e.clientWidth}`);
});

/** The drawing as it stands: its paper, the smallest letters in px, words that leave it or run over others. */
const seen = (page) => page.evaluate(() => {
  const svg = document.querySelector('.drawn').shadowRoot.querySelector('svg');
  const sheet = document.querySelector('.drawn').getBoundingClientRect();
  const scale = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
  const words = [...svg.querySelectorAll('text')].map((t) => ({ says: t.textContent, size: parseFloat(getComputedStyle(t).fontSize) * scale, r: t.getBoundingClientRect() }));
  const out = words.filter((w) => w.r.left < sheet.left || w.r.right > sheet.right || w.r.bottom > sheet.bottom).map((w) => w.says);
  // The box of a letter has room above and below that the letter does not fill.
  const meet = (a, b) => a.left < b.right - 1 && b.left < a.right - 1 && a.top + 4 < b.bottom - 4 && b.top + 4 < a.bottom - 4;
  const over = words.flatMap((a, i) => words.slice(0, i).filter((b) => meet(a.r, b.r)).map((b) => `${a.says} | ${b.says}`));
  return { paper: svg.viewBox.baseVal.width, least: Math.min(...words.map((w) => w.size)), count: words.length, all: words.map((w) => w.says).join(' '), out, over };
});

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
    await p.page.evaluate(() => document.fonts.ready.then(() => undefined));
    assert((await p.page.getByText('drag it sideways', { exact: false }).count()) === 0, `${sheet}: nothing asks to be dragged`);
    const wide = await sideways(p.page);
    assert(wide.length === 0, `${sheet} can be pushed sideways: ${wide.join('; ')}`);
    const s = await seen(p.page);
    assert(s.paper === 360 && s.count > 20, `${sheet} is in a column: ${JSON.stringify(s)}`);
    if (sheet === 'lines') assert(s.all.includes(long), `the long name is there in full: ${s.all}`);
    assert(s.least >= 12, `${sheet}: letters of ${s.least} px`);
    assert(s.out.length === 0, `${sheet}: words leave the paper: ${s.out.join('; ')}`);
    assert(s.over.length === 0, `${sheet}: words run over each other: ${s.over.join('; ')}`);
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
  'what the units give and the hours on and off open their why': whys,
};
