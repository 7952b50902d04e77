// Without signal: two phones, edits on both, a server that is killed, and nothing lost.

import { assert, person, PHONE, until } from './stage.mjs';

const counted = (p) => p.page.evaluate(() => new Promise((good) => {
  const r = indexedDB.open('northwall');
  r.onsuccess = () => {
    const q = r.result.transaction('outbox').objectStore('outbox').count();
    q.onsuccess = () => {
      r.result.close();
      good(q.result);
    };
  };
}));

async function set(p, label, value) {
  const f = p.page.getByLabel(label, { exact: true });
  await f.fill(value);
  await f.press('Enter');
}

async function twoPhones(browser, server) {
  const id = await server.example();
  const a = await person(browser, server, { size: PHONE, touch: true });
  const b = await person(browser, server, { size: PHONE, touch: true, scheme: 'dark' });
  for (const [p, who] of [[a, 'Ada'], [b, 'Bo']]) {
    await p.go('/');
    await p.page.getByLabel('Your name').fill(who);
    await p.page.getByLabel('Your name').blur();
    await p.go(`/job/${id}/visit`);
    await p.page.getByText('How each thing is known').waitFor();
    await p.page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await until(() => p.page.evaluate(() => caches.keys().then(async (k) => (k[0] ? (await (await caches.open(k[0])).keys()).length : 0))).then((n) => n >= 5), 'the page is kept on the phone');
  }

  await server.kill();

  // Both change different things, and one thing both.
  await set(a, 'Snow to bet the unit on', '26 in');
  await set(b, "Plan's up looks to", '12 deg');
  await set(a, 'Coldest to design for', '-8 F');
  await set(b, 'Coldest to design for', '-2 F');
  await until(async () => (await counted(a)) === 2 && (await counted(b)) === 2, 'both phones keep two changes');
  await a.page.getByText('No signal.', { exact: false }).first().waitFor();

  // The phone is put away and opened again, still without signal: the page opens, the changes stand.
  await a.page.reload();
  await a.page.getByText('How each thing is known').waitFor();
  assert((await a.page.getByLabel('Snow to bet the unit on').inputValue()) === '26 in', 'what was typed is there after opening again');
  assert((await counted(a)) === 2, 'and still waits to be sent');
  // What only the server can work out is not made up.
  await a.page.goto(`${server.url}/#/job/${id}/year`);
  await a.page.getByText('there is no signal now', { exact: false }).waitFor();

  await server.start();
  await a.page.evaluate(() => window.dispatchEvent(new Event('online')));
  await until(async () => (await counted(a)) === 0, 'the first phone has sent all');
  await b.page.evaluate(() => window.dispatchEvent(new Event('online')));
  await until(async () => (await counted(b)) === 0, 'the second phone has sent all');

  const now = await server.ask('GET', `/api/jobs/${id}`);
  assert(now.values.place.snow_depth === '26 in' && now.values.place.plan_north === '12 deg', 'both changes are kept');
  assert(now.values.place.heating_design === '-8 F', 'the first of the two that differ stands');
  assert(now.conflicts.length === 1 && now.conflicts[0].both[0].mine === '-2 F', 'the other is held, not lost');

  // The conflict is shown to the person, who decides.
  await b.page.getByText('Two people changed this').waitFor();
  await b.page.getByRole('button', { name: 'Take the one held back' }).click();
  await until(async () => (await server.ask('GET', `/api/jobs/${id}`)).values.place.heating_design === '-2 F', 'the decision is kept');
  await until(async () => (await b.page.getByText('Two people changed this').count()) === 0, 'and nothing is left to decide');
  await a.leave();
  await b.leave();
}

/** A window drawn and changed without signal: the second change speaks of a row the first one made. */
async function onTop(browser, server) {
  const id = await server.example();
  const p = await person(browser, server);
  const { page } = p;
  await p.go(`/job/${id}/house`);
  await page.getByRole('button', { name: 'Draw', exact: true }).click();
  await page.getByRole('button', { name: /^kitchen, take in hand/ }).waitFor();
  await server.kill();
  await page.getByRole('button', { name: /^kitchen, take in hand/ }).press('Enter');
  await page.getByRole('button', { name: /^north wall of kitchen/ }).press('Enter');
  await page.getByRole('button', { name: 'Window here' }).click();
  await set(p, 'Width', '5 ft');
  await until(async () => (await counted(p)) === 2, 'two changes wait');
  await set(p, 'Height', '3 ft');
  await until(async () => (await counted(p)) === 3, 'three changes wait');
  await server.start();
  await page.evaluate(() => window.dispatchEvent(new Event('online')));
  await until(async () => (await counted(p)) === 0, 'all is sent');
  const now = await server.ask('GET', `/api/jobs/${id}`);
  const made = now.values.window.at(-1);
  assert(made.room === 'kitchen' && made.wall === 'north' && made.width === '5 ft' && made.height === '3 ft', `the window with both its changes: ${JSON.stringify(made)}`);
  assert(now.conflicts.length === 0, 'nobody is in conflict with themselves');
  await p.leave();
}

async function theDay(browser, server) {
  const id = await server.example();
  const p = await person(browser, server, { size: PHONE, touch: true });
  const { page } = p;
  await p.go(`/job/${id}/day`);
  await page.getByRole('button', { name: 'Begin pressure' }).click();
  await page.getByRole('button', { name: 'Begin', exact: true }).click();
  await page.getByText('No reading yet.').waitFor();
  const read = async (pressure, line) => {
    await page.getByLabel('Pressure, psi').fill(pressure);
    await page.getByLabel('Lines, F').fill(line);
    await page.getByRole('button', { name: 'Keep reading' }).click();
  };
  await read('550.2', '70.1');
  await until(async () => (await counted(p)) === 0, 'sent');
  await page.getByText('Cannot tell yet.').waitFor();

  await server.kill();
  await read('550.1', '70.0');
  await read('550.1', '70.0');
  await page.getByText('2 readings are kept on this device', { exact: false }).waitFor();
  await server.start();
  await page.evaluate(() => window.dispatchEvent(new Event('online')));
  await until(async () => (await server.ask('GET', `/api/jobs/${id}/tests/pressure%201`)).readings.length === 3, 'three readings are on the disk');
  await p.leave();
}

/** The vacuum hold on a phone that sleeps through most of it. Time is the browser's, put forward by hand. */
async function vacuum(browser, server) {
  const id = await server.example();
  const p = await person(browser, server, { size: PHONE, touch: true, scheme: 'dark' });
  const { page } = p;
  await page.clock.install({ time: Date.now() - 3600_000 });
  await p.go(`/job/${id}/day`);
  await page.getByRole('button', { name: 'Begin vacuum' }).click();
  await page.getByLabel('Reach before closing').fill('500 micron');
  await page.getByLabel('Most within the hold').fill('700 micron');
  await page.getByLabel('Hold for').fill('15 min');
  await page.getByLabel('Coldest tube').fill('45 F');
  await page.getByRole('button', { name: 'Begin', exact: true }).click();
  await page.getByText('No reading yet.').waitFor();
  const clock = page.locator('.live .clock .figure');
  const read = async (micron, of = 1) => {
    await page.getByLabel('Pressure, micron').fill(micron);
    await page.getByRole('button', { name: 'Keep reading' }).click();
    await until(async () => (await page.locator('table tbody tr').count()) === of, `${of} readings are judged`);
  };
  const seconds = async () => (await clock.textContent()).split(':').reduce((s, v) => s * 60 + Number(v), 0);
  const near = (s) => until(async () => Math.abs((await seconds()) - s) <= 5, `the clock shows about ${s} s`);
  await read('420');
  await page.getByText('Cannot tell yet.').waitFor();
  await page.clock.runFor(60_000);
  await near(60);
  await page.getByText('read 01:0', { exact: false }).waitFor();
  await read('440', 2);
  await page.clock.runFor(60_000);
  await read('448', 3);

  // The phone sleeps: nothing runs. A second phone reads meanwhile.
  await page.clock.fastForward(180_000);
  const at = (await server.ask('GET', `/api/jobs/${id}/tests/vacuum%201`)).readings[0].at_s;
  await server.ask('POST', `/api/jobs/${id}/readings`, { test: 'vacuum 1', who: 'Bo', readings: [{ id: crypto.randomUUID(), at: `${new Date((at + 280) * 1000).toISOString().slice(0, 19)}Z`, pressure: '455 micron' }] });
  await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));
  await near(300);
  await page.getByText('455 micron').first().waitFor();
  await page.getByText('Cannot tell yet.').waitFor();
  await page.getByText('more would tell', { exact: false }).waitFor();

  await read('458', 5);

  // It sleeps beyond the end: the page does not say that it holds, it asks for the gauge.
  await page.clock.fastForward(605_000);
  await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));
  await near(905);
  await page.getByText('Time is over: read the gauge now', { exact: false }).waitFor();
  assert((await page.getByText('Cannot tell yet.').count()) === 1, 'no verdict without a reading');
  const wide = await page.evaluate(() => [document.documentElement.scrollWidth, parseFloat(getComputedStyle(document.querySelector('.live .figure')).fontSize), document.querySelector('.enter button').getBoundingClientRect().height]);
  assert(wide[0] <= PHONE.width && wide[1] >= 28 && wide[2] >= 48, `large figures and a button for gloves, nothing too wide: ${wide}`);
  await read('470', 6);
  assert((await page.getByText('Time is over', { exact: false }).count()) === 0, 'it is read');
  await page.getByText('Holds.', { exact: true }).waitFor();
  assert((await server.ask('GET', `/api/jobs/${id}/tests/vacuum%201`)).verdict === 'holds', 'as the server says');

  // Judged, the clock stands; opened again without signal it shows the same.
  const stood = await seconds();
  await page.clock.fastForward(3600_000);
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await server.kill();
  await page.reload();
  await page.getByText('Holds.', { exact: true }).waitFor();
  await near(stood);
  // A reading kept without signal is shown as the newest, and the verdict says that it does not know it.
  await page.getByLabel('Pressure, micron').fill('900');
  await page.getByRole('button', { name: 'Keep reading' }).click();
  await page.getByText('The verdict does not know it.', { exact: false }).waitFor();
  await page.locator('.live', { hasText: '900 micron' }).waitFor();
  await server.start();
  await page.evaluate(() => window.dispatchEvent(new Event('online')));
  await until(async () => (await server.ask('GET', `/api/jobs/${id}/tests/vacuum%201`)).readings.length === 7 && (await page.getByText('The verdict does not know', { exact: false }).count()) === 0, 'and is judged with the others');
  await p.leave();
}

async function chargeAndRun(browser, server) {
  const id = await server.example();
  const p = await person(browser, server, { size: PHONE, touch: true });
  const { page } = p;
  await p.go(`/job/${id}/day`);
  await page.getByRole('button', { name: 'Charge', exact: true }).click();
  await page.getByText('Nothing weighed yet.').waitFor();
  const asked = (await server.ask('GET', `/api/jobs/${id}/opening`)).units[0];
  await page.getByLabel('Cylinder, its number').fill('7');
  await page.getByLabel('Scale before').fill('9.000 kg');
  await page.getByLabel('Scale after').fill(`${(9 - asked.trim_kg - 0.2).toFixed(3)} kg`);
  await page.getByText(/^Fails\.\s*As typed/).waitFor();
  await page.getByLabel('Scale after').fill(`${(9 - asked.trim_kg).toFixed(3)} kg`);
  await page.getByText(/^Holds\.\s*As typed/).waitFor();
  assert((await server.ask('GET', `/api/jobs/${id}/opening`)).charges.length === 0, 'what is only typed is not kept');

  await server.kill();
  await page.getByLabel('Scale before').fill('9.0000 kg');
  await page.getByText('there is no signal now', { exact: false }).first().waitFor();
  await page.getByRole('button', { name: 'Keep weighing' }).click();
  await page.getByText('One weighing is kept on this device', { exact: false }).waitFor();
  await page.getByRole('button', { name: 'First run' }).click();
  const run = { 'Outdoors, F': '44', 'Air into the head, F': '68', 'Air out of the head, F': '104', 'Minutes at one speed': '25', 'Power, W': '900', 'Air flow, cfm': '280' };
  await page.getByLabel('Only head running').selectOption('living');
  for (const [label, value] of Object.entries(run)) await page.getByLabel(label).fill(value);
  await page.getByRole('button', { name: 'Keep run' }).click();
  await page.getByText('One run is kept on this device', { exact: false }).waitFor();
  await server.start();
  await page.evaluate(() => window.dispatchEvent(new Event('online')));
  await until(async () => (await server.ask('GET', `/api/jobs/${id}/opening`)).runs.length === 1, 'weighing and run are on the disk');
  await page.getByText('Holds.', { exact: true }).waitFor();
  await page.getByRole('button', { name: 'Charge', exact: true }).click();
  await page.getByLabel('Valves open, caps on: initials').fill('AF');
  await page.getByRole('button', { name: 'Keep it' }).click();
  await page.getByText('AF opened the valves', { exact: false }).waitFor();
  const after = await server.ask('GET', `/api/jobs/${id}/opening`);
  assert(after.charges.length === 1 && after.charges[0].verdict === 'fails' && after.charges[0].weighed.verdict === 'holds', `weighed rightly, opened before the tests hold: ${JSON.stringify(after.charges)}`);
  await p.leave();
}

async function photo(browser, server) {
  const id = await server.example();
  const p = await person(browser, server, { size: PHONE, touch: true });
  const { page } = p;
  await p.go(`/job/${id}/visit`);
  await page.getByText('How each thing is known').waitFor();
  const png = await page.evaluate(() => {
    const c = document.createElement('canvas');
    c.width = 3000;
    c.height = 1500;
    c.getContext('2d').fillRect(0, 0, 1000, 1000);
    return c.toDataURL('image/png').split(',')[1];
  });
  const choose = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: /^Photo of wall$/ }).click();
  await (await choose).setFiles({ name: 'wall.png', mimeType: 'image/png', buffer: Buffer.from(png, 'base64') });
  const kept = await until(async () => (await server.ask('GET', `/api/jobs/${id}/photos`))[0], 'the photo is on the server');
  assert(kept.shows === 'construction.wall' && kept.width === 2048 && kept.height === 1024, `attached and made smaller: ${JSON.stringify(kept)}`);
  await p.leave();
}

export const tests = {
  'two phones without signal, then together: both kept, a conflict shown and decided': twoPhones,
  'changes typed on top of one another without signal': onTop,
  'readings of the pressure test through a killed server': theDay,
  'the vacuum hold on a phone that sleeps: its clock, a second reader, and the verdict': vacuum,
  'charge and first run, judged as typed, through a killed server': chargeAndRun,
  'a photo is made smaller and attached to what it shows': photo,
};
