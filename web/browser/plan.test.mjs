// A new person comes to a finished plan; the demo house is drawn from nothing.

import { join } from 'node:path';
import { looked } from './axe.mjs';
import { assert, LAPTOP, PATIENCE, person, PHONE, until } from './stage.mjs';

const job = async (server) => (await server.ask('GET', '/api/jobs')).jobs[0];
const saved = (p) => until(async () => (await p.page.evaluate(() => indexedDB.databases().then((d) => d.length))) > 0, 'a database');
const settled = async (server, id, says, what) => until(async () => what(await server.ask('GET', `/api/jobs/${id}`)), says);

async function finished(browser, server, size, scheme) {
  const p = await person(browser, server, { size, scheme, touch: size === PHONE });
  const { page } = p;
  await p.go('/');
  await page.getByLabel('Name of a new job').fill('Mill Lane 3');
  await page.getByLabel('Your name').fill('Ada');
  await page.getByLabel('Your name').blur();
  await page.getByRole('button', { name: 'Begin with a usual house' }).click();
  await page.waitForURL(/\/visit$/);
  await page.getByText('How each thing is known').waitFor();
  const { id } = await job(server);

  // The visit: what the design rests on, and a thing that was looked at.
  await page.getByLabel('Coldest to design for').fill('-4 F');
  await page.getByLabel('Coldest to design for').press('Enter');
  await page.getByLabel('Who says so').fill('town building office');
  await page.getByLabel('Who says so').press('Enter');
  await settled(server, id, 'the design temperature is kept', (j) => j.values.place.heating_design === '-4 F' && j.values.place.heating_design_source === 'town building office');
  const first = page.locator('.item').first();
  await first.getByRole('button', { name: 'Seen' }).click();
  await settled(server, id, 'what was seen is kept', (j) => Object.values(j.values.construction).some((c) => c.known === 'seen' || c.seen));

  // The house: a head in the living room, from the catalogue.
  await page.goto(`${server.url}/#/job/${id}/house`);
  await page.getByRole('button', { name: 'Draw', exact: true }).click();
  await page.getByRole('button', { name: /^living, take in hand/ }).press('Enter');
  if (size === PHONE) await page.locator('.handle').click();
  await page.getByRole('button', { name: 'Head here' }).click();
  await settled(server, id, 'the head and its outdoor unit are kept', (j) => j.values.head?.length === 1 && j.values.outdoor?.length === 1);
  await page.getByRole('button', { name: 'Done' }).click();

  // The plan is finished: the year is there, and its number unfolds beside itself.
  await page.goto(`${server.url}/#/job/${id}/winter`);
  await page.getByText('Seasonal COP').first().waitFor();
  await page.goto(`${server.url}/#/job/${id}/house`);
  const number = page.getByRole('button', { name: /^House loses: .* Why$/ });
  await number.click();
  const why = page.getByRole('dialog');
  await why.getByText('Common practice, no source', { exact: false }).first().waitFor();
  const [a, b] = [await number.boundingBox(), await why.boundingBox()];
  const apart = a.x + a.width <= b.x || b.x + b.width <= a.x || a.y + a.height <= b.y || b.y + b.height <= a.y;
  assert(apart, `the why lies over its number: ${JSON.stringify([a, b])}`);
  const plan = await server.ask('GET', `/api/jobs/${id}/plan`);
  const shown = Math.round(plan.headline.heating_load_w / 0.29307107017 / 10) * 10;
  assert((await number.textContent()).replace(/[^\d]/g, '') === String(shown), `the page shows ${await number.textContent()}, the plan has ${shown}`);
  assert((await server.ask('GET', `/api/jobs/${id}/changes`)).revisions[0].who === 'Ada', 'the history names who changed it');
  await p.leave();
}

async function fromNothing(browser, server) {
  const p = await person(browser, server, { size: LAPTOP });
  const { page } = p;
  await p.go('/');
  await page.getByLabel('Name of a new job').fill('From nothing');
  await page.getByRole('button', { name: 'Begin with one room' }).click();
  await page.waitForURL(/\/house$/);
  await saved(p);
  const { id } = await job(server);
  const values = (what, says) => settled(server, id, says, (j) => what(j.values));
  const outline = (v, name) => v.room.find((r) => r.name === name)?.outline.join('; ');
  await page.getByRole('button', { name: 'Draw', exact: true }).click();

  // The first room by typed lengths: 18 ft by 14 ft.
  await page.getByRole('button', { name: /^living, take in hand/ }).press('Enter');
  await page.getByRole('button', { name: /^south wall of living/ }).press('Enter');
  await page.getByLabel('Length', { exact: true }).fill('18 ft');
  await page.getByLabel('Length', { exact: true }).press('Enter');
  await values((v) => /18 ft, 0 ft/.test(outline(v, 'living')), 'the wall is 18 ft');
  await page.getByRole('button', { name: /^east wall of living/ }).press('Enter');
  await page.getByLabel('Length', { exact: true }).fill('14');
  await page.getByLabel('Length', { exact: true }).press('Enter');
  await values((v) => /18 ft, 14 ft/.test(outline(v, 'living')), 'a bare number is feet: 14 ft');

  // The kitchen by dragging from corner to corner; it falls in line with the wall that is there.
  const at = async (east, north) => page.evaluate(([e, n]) => {
    const rooms = [...document.querySelectorAll('svg .room')];
    const b = rooms.map((r) => r.getBBox());
    const living = b[0];
    const svg = rooms[0].ownerSVGElement.getBoundingClientRect();
    const k = living.width / 18;
    return [svg.x + living.x + e * k, svg.y + living.y + living.height - n * k];
  }, [east, north]);
  const drag = async (from, to) => {
    await page.mouse.move(...from);
    await page.mouse.down();
    await page.mouse.move((from[0] + to[0]) / 2, (from[1] + to[1]) / 2, { steps: 4 });
    await page.mouse.move(...to, { steps: 6 });
    await page.mouse.up();
  };
  const small = page.getByRole('button', { name: 'Smaller' });
  await small.click();
  await small.click();
  await small.click();
  await page.getByRole('button', { name: 'New room', exact: true }).click();
  await drag(await at(18.1, 0.1), await at(29.9, 23.9));
  await page.getByLabel('Name', { exact: true }).fill('kitchen');
  await page.getByLabel('Name', { exact: true }).press('Enter');
  await values((v) => outline(v, 'kitchen') === '18 ft, 0 ft; 30 ft, 0 ft; 30 ft, 24 ft; 18 ft, 24 ft', 'the kitchen is drawn in line');

  // What would lie over another room is shown at once, and put back.
  await page.getByRole('button', { name: 'New room', exact: true }).click();
  const from = await at(10, 10);
  const to = await at(24, 20);
  await page.mouse.move(...from);
  await page.mouse.down();
  await page.mouse.move(...to, { steps: 8 });
  await page.locator('svg text', { hasText: 'lies over' }).first().waitFor();
  await page.mouse.up();
  await page.getByText(/^Not drawn:/).waitFor();
  assert((await server.ask('GET', `/api/jobs/${id}`)).values.room.length === 2, 'nothing wrong was kept');

  for (const [name, e0, n0, e1, n1] of [['hall', 0.1, 14.1, 11.9, 23.9], ['bath', 12.1, 14.1, 17.9, 23.9]]) {
    await page.getByRole('button', { name: 'New room', exact: true }).click();
    await drag(await at(e0, n0), await at(e1, n1));
    await page.getByLabel('Name', { exact: true }).fill(name);
    await page.getByLabel('Name', { exact: true }).press('Enter');
    await values((v) => v.room.some((r) => r.name === name), `${name} is drawn`);
  }
  await values((v) => outline(v, 'hall') === '0 ft, 14 ft; 12 ft, 14 ft; 12 ft, 24 ft; 0 ft, 24 ft' && outline(v, 'bath') === '12 ft, 14 ft; 18 ft, 14 ft; 18 ft, 24 ft; 12 ft, 24 ft', 'hall and bath fit');

  // A window to the west, and a door to the hall.
  await page.getByRole('button', { name: /^living, take in hand/ }).press('Enter');
  await page.getByRole('button', { name: /^west wall of living/ }).press('Enter');
  await page.getByRole('button', { name: 'Window here' }).click();
  await page.getByLabel('Width', { exact: true }).fill('8 ft');
  await page.getByLabel('Width', { exact: true }).press('Enter');
  await values((v) => v.window?.[0]?.width === '8 ft' && v.window[0].wall === 'west', 'the picture window');
  await page.getByRole('button', { name: 'Its room' }).click();
  await page.getByRole('button', { name: /^north wall of living/ }).press('Enter');
  await page.getByRole('button', { name: 'Door to hall' }).click();
  await values((v) => v.room[0].door_to?.[0]?.room === 'hall', 'the door to the hall');

  // A wall is dragged: both its rooms follow, the number answers, and undo brings it back.
  const load = async () => (await server.ask('GET', `/api/jobs/${id}/plan`)).headline.heating_load_w;
  const before = await load();
  await page.getByRole('button', { name: 'The room' }).click();
  const [wall, there] = [await at(18, 7), await at(16, 7)];
  await page.mouse.move(...wall);
  await page.mouse.down();
  await page.mouse.move(...there, { steps: 8 });
  await page.getByText('while you drag').waitFor();
  await page.mouse.up();
  await values((v) => /16 ft, 14 ft/.test(outline(v, 'living')) && /^16 ft, 0 ft/.test(outline(v, 'kitchen')), 'both rooms follow the wall');
  assert((await load()) !== before, 'the loss answers');
  await page.getByRole('button', { name: 'Undo' }).click();
  await values((v) => /18 ft, 14 ft/.test(outline(v, 'living')), 'undone');
  await page.getByRole('button', { name: 'Redo' }).click();
  await values((v) => /16 ft, 14 ft/.test(outline(v, 'living')), 'done again');
  await page.getByRole('button', { name: 'Undo' }).click();
  await values((v) => /18 ft, 14 ft/.test(outline(v, 'living')), 'undone again');

  // A second storey with a room that stands on the first.
  await page.keyboard.press('Escape');
  await page.getByRole('textbox', { name: 'New storey' }).fill('upper');
  await page.getByRole('textbox', { name: 'New storey' }).press('Enter');
  await values((v) => v.storey.length === 2, 'a second storey');
  await page.getByLabel('New room by numbers, its name').fill('bed 1');
  await page.getByLabel('East to west').fill('15 ft');
  await page.getByLabel('North to south').fill('13 ft');
  await page.getByRole('button', { name: 'Draw it' }).click();
  await values((v) => v.room.find((r) => r.name === 'bed 1')?.storey === 'upper', 'a room upstairs');
  const plan = await server.ask('GET', `/api/jobs/${id}/plan`);
  assert(plan.rooms.filter((r) => typeof r.loss_w === 'number').length === 5, 'every room drawn has its loss');
  await p.leave();
}

/** Two fingers pinch, one drags a wall: as on a phone, through the browser's own touch input. */
async function fingers(browser, server) {
  const id = await server.example();
  const p = await person(browser, server, { size: PHONE, touch: true });
  const { page } = p;
  await p.go(`/job/${id}/house`);
  await page.getByRole('button', { name: /^House loses/ }).waitFor();
  const touch = await p.context.newCDPSession(page);
  const send = (type, points) => touch.send('Input.dispatchTouchEvent', { type, touchPoints: points.map(([x, y], i) => ({ x, y, id: i })) });
  const room = (name) => page.evaluate((n) => {
    const r = [...document.querySelectorAll('svg .room')].find((x) => x.getAttribute('aria-label').startsWith(`${n},`)).getBoundingClientRect();
    return [r.left, r.top, r.right, r.bottom];
  }, name);
  const wide = async () => {
    const [l, , r] = await room('kitchen');
    return r - l;
  };
  const before = await wide();
  await send('touchStart', [[170, 380], [220, 380]]);
  for (let i = 1; i <= 6; i += 1) await send('touchMove', [[170 - i * 8, 380], [220 + i * 8, 380]]);
  await send('touchEnd', []);
  assert((await wide()) > before * 1.5, `a pinch enlarges: ${before} to ${await wide()}`);
  await page.getByRole('button', { name: 'Fit' }).click();
  await until(async () => Math.abs((await wide()) - before) < 1, 'fit brings it back');

  await page.getByRole('button', { name: 'Draw', exact: true }).tap();
  const hall = await room('hall');
  await page.touchscreen.tap((hall[0] + hall[2]) / 2, (hall[1] + hall[3]) / 2 + 14);
  await page.getByRole('button', { name: /^south wall of hall/ }).waitFor({ state: 'attached' });
  const h = await room('hall');
  const [x, y] = [h[0] + (h[2] - h[0]) * 0.5, h[3]];
  const foot = (h[2] - h[0]) / 12;
  await send('touchStart', [[x, y]]);
  for (let i = 1; i <= 8; i += 1) await send('touchMove', [[x, y - (foot * i) / 4]]);
  await send('touchEnd', []);
  await settled(server, id, 'the wall follows the finger by two feet', (j) => j.values.room.find((r) => r.name === 'hall').outline[0] === '0 ft, 16 ft');
  await p.leave();
}

async function takes(browser, server) {
  const id = await server.example();
  const p = await person(browser, server, { size: LAPTOP });
  const { page } = p;
  const before = (await server.ask('GET', `/api/jobs/${id}`)).text;
  const chosen = async () => (await server.ask('GET', `/api/jobs/${id}/options`)).options.find((o) => o.choice === 'chosen');
  const two = await chosen();
  await p.go(`/job/${id}/winter`);
  const table = page.getByRole('region', { name: 'Choices side by side' });
  await table.getByRole('rowheader', { name: 'a head in every bedroom' }).waitFor();
  assert((await table.getByRole('row').count()) === 5, 'what heats now, what is chosen and two options stand side by side');
  await page.getByRole('button', { name: 'Take a head in every bedroom' }).click();
  await settled(server, id, 'the option is what is chosen', (j) => j.values.head.length === 5 && j.values.outdoor[0].unit === 'Grebe 42' && j.values.option.some((o) => o.name === 'chosen before' && o.heads.length === 2));
  await page.getByRole('button', { name: 'Take chosen before' }).waitFor();
  const five = await chosen();
  assert(five.heads === 5 && two.heads === 2 && five.heads_share !== two.heads_share, `the years follow: ${JSON.stringify([two, five])}`);
  await page.getByRole('button', { name: 'Put it back' }).click();
  await settled(server, id, 'the two heads are back with their lines and drains', (j) => j.values.head.length === 2 && j.values.line.length === 2 && j.values.drain.length === 2);
  const after = (await server.ask('GET', `/api/jobs/${id}`)).text;
  assert(typeof before === 'string' && after === before, 'to the letter');
  await p.leave();
}

async function bands(browser, server) {
  const id = await server.example();
  const p = await person(browser, server, { size: PHONE, touch: true });
  const { page } = p;
  await p.go(`/job/${id}/winter`);
  const part = page.getByRole('region', { name: 'Bands of the choices', exact: true });
  await part.getByText('Bands are being worked out', { exact: false }).waitFor();
  const done = await until(async () => {
    const t = await server.ask('GET', `/api/jobs/${id}/bands`);
    return t.state === 'done' ? t : null;
  }, 'the server has worked them out', 10 * PATIENCE);
  const row = part.getByRole('row', { name: /^chosen/ });
  await row.waitFor();
  const chosen = done.bands.choices.find((c) => c.choice === 'chosen');
  const money = (v) => `$${Math.round(v).toLocaleString('en-US')}`;
  const words = `${money(chosen.cost.low)} to ${money(chosen.cost.high)}`;
  assert((await row.textContent()).replaceAll('\u00a0', ' ').includes(words), `the table says ${words}: ${await row.textContent()}`);
  assert((await part.locator('svg rect').count()) === done.bands.choices.length, 'a band for each choice');
  await part.getByText(`chosen in ${Math.round(chosen.carries * 100)} of 100`, { exact: false }).waitFor();
  // Every number of the table opens its why, down to the year as entered, the widths and the job's line.
  const numbers = await row.locator('td').evaluateAll((all) => all.map((td) => [td.getAttribute('data-of'), td.querySelectorAll('button').length]));
  assert(numbers.length === 7 && numbers.every(([, n]) => n === 1 || n === 2), `each number is a button: ${JSON.stringify(numbers)}`);
  const number = row.getByRole('button', { name: `Cost a year, chosen, low: ${money(chosen.cost.low)}. Why`, exact: true });
  await number.tap();
  const why = page.getByRole('dialog', { name: 'Why: Cost a year, chosen, low', exact: true });
  await why.getByText(`one in ten of the houses this could be lies below`, { exact: false }).waitFor();
  await why.getByText('cost of the year', { exact: true }).waitFor();
  await why.getByText('seed of their values', { exact: false }).waitFor();
  const leaks = why.locator('.step', { hasText: 'how far leakage of the house may lie apart' }).last();
  await leaks.getByRole('button', { name: 'from 3 numbers' }).tap();
  // the coefficient of the leaks rests on the blower door: its flow, pressure and exponent
  await leaks.getByRole('button', { name: 'from 3 numbers' }).tap();
  await leaks.getByText('leakage.blower_door, job file line', { exact: false }).first().waitFor();
  await leaks.getByText('widths of decision 8, seen', { exact: false }).first().waitFor();
  const inside = await why.evaluate((e) => [e.scrollWidth, e.clientWidth]);
  assert(inside[0] <= inside[1], `the why is ${inside[0]} px wide in ${inside[1]}`);
  await why.getByRole('button', { name: 'Close' }).tap();
  // By day and by night, in SI, by keyboard, and on paper.
  for (const colorScheme of ['light', 'dark']) {
    await page.emulateMedia({ colorScheme });
    await looked(page, `bands, ${colorScheme}`);
  }
  await page.getByRole('button', { name: 'm, C', exact: true }).tap();
  const loss = done.bands.agreed?.survey_w_per_k ?? done.bands.loss_w_per_k;
  const si = (w) => Number(w.toPrecision(3)).toLocaleString('en-US');
  if (done.bands.agreed) await part.getByText(`${si(loss.low)} to ${si(loss.high)} W/K`, { exact: false }).first().waitFor();
  const coldest = (v) => v.toFixed(1);
  await until(async () => (await row.textContent()).includes(`${coldest(chosen.least_c.high)}\u00a0C`), `the coldest hour in C: ${await row.textContent()}`);
  assert(!/\d\u00a0?F\b|Btu/.test(await part.innerText()), `nothing is left in F or Btu: ${await part.innerText()}`);
  const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert(over <= 0, `bands in SI are ${over} px too wide for the phone`);
  const touching = await part.evaluate((e) => {
    const words = [...e.querySelectorAll('svg text')].map((t) => ({ t: t.textContent, b: t.getBoundingClientRect() }));
    return words.flatMap((a, i) => words.slice(i + 1).filter((c) => a.b.left < c.b.right - 1 && c.b.left < a.b.right - 1 && a.b.top < c.b.bottom - 3 && c.b.top < a.b.bottom - 3).map((c) => `${a.t} / ${c.t}`));
  });
  assert(touching.length === 0, `words touch in the picture: ${touching}`);
  await page.getByRole('button', { name: 'ft, F', exact: true }).focus();
  await until(async () => {
    await page.keyboard.press('Tab');
    return page.evaluate(() => document.activeElement?.getAttribute('aria-label') === 'Bands of the choices as a table');
  }, 'the keyboard reaches the table of bands');
  await page.emulateMedia({ media: 'print' });
  const printed = await part.evaluate((e) => ({ rows: e.querySelectorAll('tbody tr').length, high: e.querySelector('svg')?.getBoundingClientRect().height ?? 0, ink: getComputedStyle(e).color }));
  assert(printed.rows === done.bands.choices.length && printed.high > 80 && printed.ink === 'rgb(0, 0, 0)', `bands print, black on white: ${JSON.stringify(printed)}`);
  await page.emulateMedia({ media: null, colorScheme: 'light' });
  await page.getByRole('button', { name: 'ft, F', exact: true }).tap();
  // An edit goes through at once, and the bands that stand there are said to be of before.
  await p.go(`/job/${id}/visit`);
  await page.getByLabel('Snow to bet the unit on').fill('30 in');
  await page.getByLabel('Snow to bet the unit on').press('Enter');
  await settled(server, id, 'the edit is kept', (j) => j.values.place.snow_depth === '30 in');
  await p.go(`/job/${id}/winter`);
  await part.getByText('Bands are being worked out', { exact: false }).waitFor();
  await p.leave();
}

async function bills(browser, server) {
  const id = await server.example();
  const p = await person(browser, server, { size: PHONE, touch: true });
  const { page } = p;
  await p.go(`/job/${id}/winter`);
  const file = page.getByLabel('A file of bills');
  const of = (name) => join(import.meta.dirname, '../../jobs/lake-street/bills', name);
  await file.setInputFiles({ name: 'photo.csv', mimeType: 'text/csv', buffer: Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 0, 0, 0]) });
  await page.getByText('photo.csv was not read.').waitFor();
  await file.setInputFiles(of('oil-slips.csv'));
  await page.getByRole('button', { name: /^Keep \d+ bills$/ }).click();
  await settled(server, id, 'the slips are entries of the job', (j) => j.values.bill.length > 4 && j.values.bill.every((b) => b.of === 'oil'));
  const told = await until(async () => {
    const t = await server.ask('GET', `/api/jobs/${id}/bills`);
    return t.loss_w_per_k ? t : null;
  }, 'the bills tell a loss');
  const us = (w) => (w / 0.29307107017 / 1.8).toPrecision(3);
  const said = `${us(told.loss_w_per_k.low)} to ${us(told.loss_w_per_k.high)}`;
  const row = page.getByRole('region', { name: 'Bills beside the survey' }).getByRole('row', { name: /^Heat loss/ });
  await until(async () => (await row.textContent()).includes(said) && (await row.textContent()).includes(us(told.survey_w_per_k)), `the page shows ${said} beside ${us(told.survey_w_per_k)}`);
  await p.leave();
}

/** A file of temperatures stands for the typical year, is left out and taken away; a wrong one is refused. */
async function temperatures(browser, server) {
  const id = await server.example();
  const p = await person(browser, server, { size: PHONE, touch: true });
  const { page } = p;
  await p.go(`/job/${id}/winter`);
  const of = (name) => join(import.meta.dirname, '../../jobs/lake-street/bills', name);
  await page.getByLabel('A file of bills').setInputFiles(of('oil-slips.csv'));
  await page.getByRole('button', { name: /^Keep \d+ bills$/ }).click();
  const part = page.getByRole('region', { name: "Temperatures of the bills' dates" });
  await part.getByText('a typical year of', { exact: false }).waitFor();
  await part.getByText('named by the job, not here', { exact: false }).waitFor();
  await part.getByRole('button', { name: 'Take away bills/days.csv' }).tap();
  await settled(server, id, 'the file that is not here is no longer named', (j) => (j.values.winters.temperatures ?? []).length === 0);
  const file = part.getByLabel('A file of temperatures', { exact: false });
  await file.setInputFiles(of('oil-slips.csv'));
  await part.getByText('oil-slips.csv was not read.', { exact: false }).waitFor();
  const wide = (await server.ask('GET', `/api/jobs/${id}/bills`)).loss_w_per_k;
  await file.setInputFiles(of('days.csv'));
  await part.getByText('The bills are fitted with temperatures/days.csv, 1325 days.', { exact: false }).waitFor();
  const fitted = await server.ask('GET', `/api/jobs/${id}/bills`);
  assert(fitted.typical === false && fitted.loss_w_per_k.high - fitted.loss_w_per_k.low < wide.high - wide.low, `measured days narrow the band: ${JSON.stringify([wide, fitted.loss_w_per_k])}`);
  await settled(server, id, 'the job names it', (j) => JSON.stringify(j.values.winters.temperatures).includes('temperatures/days.csv'));
  const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert(over <= 0, `the page is ${over} px too wide for the phone`);
  for (const colorScheme of ['light', 'dark']) {
    await page.emulateMedia({ colorScheme });
    await looked(page, `temperatures, ${colorScheme}`);
  }
  // Named no more by somebody else it is kept and not used; used again; taken away.
  const now = await server.ask('GET', `/api/jobs/${id}`);
  await server.ask('POST', `/api/jobs/${id}/changes`, { id: crypto.randomUUID(), base_revision: now.revision, edits: [{ path: 'winters.temperatures', value: [] }] });
  await page.reload();
  await part.getByText('not used', { exact: false }).waitFor();
  await part.getByRole('button', { name: 'Use temperatures/days.csv' }).tap();
  await part.getByText('temperatures/days.csv, 1325 days.', { exact: false }).waitFor();
  await part.getByRole('button', { name: 'Take away temperatures/days.csv' }).tap();
  await part.getByText('a typical year of', { exact: false }).waitFor();
  await until(async () => (await server.ask('GET', `/api/jobs/${id}/bills`)).temperatures.length === 0, 'it is gone from the server');
  await p.leave();
}

/** Each number that says it unfolds does: what was worked out, from what, by which source. */
async function whys(browser, server) {
  const id = await server.example();
  const p = await person(browser, server, { size: LAPTOP });
  const { page } = p;
  const asked = new Set();
  page.on('response', (r) => {
    const key = /\/why\/([^?]+)/.exec(r.url())?.[1];
    if (!key) return;
    asked.add(decodeURIComponent(key));
    if (!r.ok()) asked.add(`refused: ${decodeURIComponent(key)}`);
  });
  for (const sheet of ['house', 'rooms', 'winter', 'year', 'outside']) {
    await p.go(`/job/${id}/${sheet}`);
    await page.locator('.sheet').first().waitFor();
    await until(() => page.evaluate(() => !/Looking\.|Unrolling|Laying out/.test(document.body.innerText)), `${sheet} is laid out`);
    if (sheet === 'winter') await page.getByRole('button', { name: /^a head in every bedroom, COP/ }).waitFor();
    if (sheet === 'house') await page.getByText('The same as a table').click();
    const numbers = page.getByRole('button', { name: /\. Why$/ });
    await numbers.first().waitFor();
    const before = asked.size;
    const many = await numbers.count();
    // Sixteen of a sheet at most, spread over it: the rest are of the same making.
    for (let i = 0; i < many; i += Math.ceil(many / 16)) {
      const answered = page.waitForResponse((r) => r.url().includes('/why/'));
      await numbers.nth(i).press('Enter');
      const { what } = await (await answered).json();
      if (i === 0 && what) await page.getByRole('dialog').getByText(what, { exact: false }).first().waitFor();
      await page.keyboard.press('Escape');
    }
    assert(asked.size > before, `numbers of ${sheet} unfold: ${many}`);
  }
  const refused = [...asked].filter((k) => k.startsWith('refused'));
  assert(refused.length === 0 && asked.size > 25, `${asked.size} numbers, of them ${refused.join(', ')}`);
  await p.leave();
}

/** A scan is laid under the drawing, set to scale by a length that is known, moved, and drawn over. */
async function traces(browser, server) {
  for (const size of [LAPTOP, PHONE]) {
    const p = await person(browser, server, { size, touch: size === PHONE });
    const { page } = p;
    await p.go('/');
    await page.getByLabel('Name of a new job').fill(`Scan ${size.width}`);
    await page.getByRole('button', { name: 'Begin with one room' }).click();
    await page.waitForURL(/\/house$/);
    const id = page.url().split('/').at(-2);
    await page.getByRole('button', { name: 'Draw', exact: true }).click();

    // What is no picture is told, and nothing is laid.
    const file = page.getByLabel('Photo or scan to trace');
    await file.setInputFiles({ name: 'scan.png', mimeType: 'image/png', buffer: Buffer.from('no picture') });
    await page.getByText('This file is not a picture that this browser can open.', { exact: false }).waitFor();
    assert((await page.locator('.paper svg image').count()) === 0, 'nothing is laid');

    // A scan of 800 by 600 dots; the house on it is 600 by 400, from 100, 100.
    const png = await page.evaluate(() => {
      const c = document.createElement('canvas');
      [c.width, c.height] = [800, 600];
      const g = c.getContext('2d');
      g.fillStyle = '#fff';
      g.fillRect(0, 0, 800, 600);
      g.lineWidth = 8;
      g.strokeRect(100, 100, 600, 400);
      return c.toDataURL('image/png').split(',')[1];
    });
    await file.setInputFiles({ name: 'scan.png', mimeType: 'image/png', buffer: Buffer.from(png, 'base64') });
    const image = page.locator('.paper svg image');
    await image.waitFor();
    const lies = async () => {
      const [b, r] = await page.evaluate(() => [document.querySelector('.paper svg image'), document.querySelector('svg .room')].map((e) => e.getBBox()).map(({ x, y, width, height }) => ({ x, y, width, height })));
      return { b, foot: r.width / (await feet()) };
    };
    const feet = async () => {
      const at = (await server.ask('GET', `/api/jobs/${id}`)).values.room[0].outline[1];
      return parseFloat(at);
    };
    // By the wall that is known to be 30 ft: from its one end to the other on the scan.
    const onScan = async (px, py) => page.evaluate(([u, v]) => {
      const b = document.querySelector('.paper svg image').getBoundingClientRect();
      return [b.x + b.width * u, b.y + b.height * v];
    }, [px / 800, py / 600]);
    await page.getByRole('button', { name: 'Set scale' }).click();
    const press = async (x, y) => (size === PHONE ? page.touchscreen.tap(x, y) : page.mouse.click(x, y));
    await press(...(await onScan(100, 500)));
    await page.getByText('And its other end.').waitFor();
    await press(...(await onScan(700, 500)));
    await page.getByLabel('Between the marks').fill('30 ft');
    await page.getByLabel('Between the marks').press('Enter');
    await page.getByText('And its other end.').waitFor({ state: 'detached' });
    await until(async () => {
      const { b, foot } = await lies();
      return Math.abs(b.width / foot - 40) < 0.4 && Math.abs(b.width / b.height - 4 / 3) < 0.01;
    }, 'the scan of 800 dots is 40 ft wide');
    assert(/^40 ft|^39 ft 11|^40/.test(await page.getByLabel('Width of the photo on the plan').inputValue()), `its width is said: ${await page.getByLabel('Width of the photo on the plan').inputValue()}`);

    // Moved until its corner lies on the corner of the room: dragged, then by keys to the inch.
    await page.getByRole('button', { name: 'Move photo' }).click();
    const corner = async () => {
      const to = await page.evaluate(() => {
        const b = document.querySelector('svg .room').getBoundingClientRect();
        return [b.left, b.bottom];
      });
      return { from: await onScan(100, 500), to };
    };
    const { from, to } = await corner();
    if (size === LAPTOP) {
      await page.mouse.move(...from);
      await page.mouse.down();
      await page.mouse.move(...to, { steps: 5 });
      await page.mouse.up();
    } else {
      const touch = await p.context.newCDPSession(page);
      const send = (type, points) => touch.send('Input.dispatchTouchEvent', { type, touchPoints: points.map(([x, y]) => ({ x, y, id: 0 })) });
      await send('touchStart', [from]);
      for (let i = 1; i <= 5; i += 1) await send('touchMove', [[from[0] + ((to[0] - from[0]) * i) / 5, from[1] + ((to[1] - from[1]) * i) / 5]]);
      await send('touchEnd', []);
    }
    const near = await corner();
    assert(Math.hypot(near.from[0] - near.to[0], near.from[1] - near.to[1]) < 3, `the scan follows the hand: ${JSON.stringify(near)}`);
    await page.getByRole('application').press('Shift+ArrowRight');
    await page.getByRole('application').press('Shift+ArrowLeft');
    await page.getByRole('button', { name: 'Move photo' }).click();

    // The scan is seen through the room, and stays when the page is opened again and not drawn upon.
    const before = (await lies()).b.width;
    assert((await page.locator('svg .room.over').count()) === 1, 'the scan is seen through the room');
    await page.getByRole('button', { name: 'Done' }).click();
    await until(async () => (await image.count()) === 0, 'the plan that is read has no scan in it');
    await page.reload();
    await page.getByRole('button', { name: 'Draw', exact: true }).click();
    await image.waitFor();
    const again = await lies();
    assert(Math.abs(again.b.width / again.foot - 40) < 0.4 && before > 0, 'it lies there again, to scale');
    await page.getByLabel('Width of the photo on the plan').fill('some');
    await page.getByLabel('Width of the photo on the plan').press('Enter');
    await page.getByText('The width of the photo does not read', { exact: false }).waitFor();

    // Drawn over: a room by its two corners on the scan.
    if (size === LAPTOP) {
      const sill = await onScan(700, 100);
      const b = await page.evaluate(() => {
        const r = document.querySelector('svg .room').getBoundingClientRect();
        return [r.right, r.bottom];
      });
      await page.getByRole('button', { name: 'New room', exact: true }).click();
      await page.mouse.move(b[0] + 1, b[1] - 1);
      await page.mouse.down();
      await page.mouse.move(...sill, { steps: 6 });
      await page.mouse.up();
      const drawn = await until(async () => {
        const r = (await server.ask('GET', `/api/jobs/${id}`)).values.room;
        return r.length === 2 ? r[1] : null;
      }, 'a room is drawn over the scan');
      const [e, n] = drawn.outline[2].split(', ').map((t) => parseFloat(t));
      assert(Math.abs(e - 30) <= 0.5 && Math.abs(n - 20) <= 0.5, `to the corner of the house on the scan, 30 ft by 20 ft: ${drawn.outline}`);
    }
    await page.getByRole('button', { name: 'Lift' }).click();
    await until(async () => (await image.count()) === 0, 'it is lifted');
    await p.leave();
  }
}

export const tests = {
  'every number that says so unfolds its why': whys,
  'a scan is laid under the drawing, scaled, moved, drawn over, and lifted': traces,
  'a file of bills is read, kept, and told beside the survey; what is none is refused': bills,
  'a file of temperatures stands for the typical year, is left out, used again, and taken away': temperatures,
  'bands beside the options are worked out meanwhile, shown, and begun anew after an edit': bands,
  'an option stands beside what is chosen, is taken, and put back to the letter': takes,
  'a new person comes to a finished plan, laptop, light': (b, s) => finished(b, s, LAPTOP, 'light'),
  'a new person comes to a finished plan, phone, dark': (b, s) => finished(b, s, PHONE, 'dark'),
  'two fingers pinch, one drags a wall': fingers,
  'the ground floor of the demo house is drawn from nothing': fromNothing,
};
