// Takes the pictures of docs/pictures anew: every sheet, the laptop by day, the phone by night.
// PICTURES_TO writes them elsewhere, for looking; names after it take only those.

import { randomUUID } from 'node:crypto';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { assert, LAPTOP, openBrowser, person, PHONE, Server, until } from './stage.mjs';

const OUT = process.env.PICTURES_TO ?? resolve(import.meta.dirname, '../../docs/pictures');
const BANDS = 600_000;
mkdirSync(OUT, { recursive: true });
const SHEETS = ['visit', 'house', 'rooms', 'winter', 'year', 'outside', 'lines', 'day'];

/** A vacuum hold of a quarter of an hour, with a little water left that has come off. */
async function hold(server, id) {
  const test = 'vacuum 1';
  const rests_on = {
    kind: 'vacuum', refrigerant: 'R-32', lines: [{ tube: '1/4 in', length: '24 ft' }, { tube: '3/8 in', length: '24 ft' }], volumes: [],
    gauge: { id: 'gauge 2', accuracy: '10 micron', step: '1 micron', calibrated: '2026-05-04' },
    reach: '500 micron', limit: '700 micron', hold: '15 min', source: 'the sheet', gauge_at: 'system', coldest: '46 F',
  };
  await server.ask('POST', `/api/jobs/${id}/tests`, { id: randomUUID(), test, who: 'A. Fitter', rests_on });
  const began = Date.now() - 1000_000;
  const readings = [412, 428, 437, 443, 447, 450, 452, 453].map((micron, i) => ({
    id: randomUUID(), at: new Date(began + i * 128_571.5).toISOString().slice(0, 19) + 'Z', pressure: `${micron} micron`,
  }));
  await server.ask('POST', `/api/jobs/${id}/readings`, { test, who: 'A. Fitter', readings });
}

const browser = await openBrowser();
const server = new Server();
try {
  await server.start();
  const id = await server.example();
  // The bills of the demo, read in as a person would.
  const slips = readFileSync(resolve(import.meta.dirname, '../../jobs/lake-street/bills/oil-slips.csv'));
  const read = await (await fetch(`${server.url}/api/jobs/${id}/bills/read`, { method: 'POST', headers: { 'content-type': 'application/octet-stream' }, body: slips })).json();
  await server.ask('POST', `/api/jobs/${id}/changes`, { id: randomUUID(), base_revision: 1, edits: read[0].bills.map((value) => ({ path: 'bill', value })) });
  const { path: shared } = await server.ask('POST', `/api/jobs/${id}/links`, { days: 30 });

  // A WebP by the browser's own hand: less than half of a PNG, and its letters stay sharp.
  const press = await browser.newPage();
  const pressed = (png) => press.evaluate(async (bytes) => {
    const picture = await createImageBitmap(await (await fetch(`data:image/png;base64,${bytes}`)).blob());
    const c = document.createElement('canvas');
    [c.width, c.height] = [picture.width, picture.height];
    c.getContext('2d').drawImage(picture, 0, 0);
    return c.toDataURL('image/webp', 0.8).split(',')[1];
  }, png.toString('base64'));

  // A sketch of the ground floor as somebody would scan it, 30 ft by 24 ft to its edges.
  const sketch = () => press.evaluate(() => {
    const c = document.createElement('canvas');
    [c.width, c.height] = [1500, 1200];
    const g = c.getContext('2d');
    g.fillStyle = '#f2eedf';
    g.fillRect(0, 0, 1500, 1200);
    g.strokeStyle = '#31466b';
    g.lineWidth = 5;
    g.lineCap = 'round';
    let n = 7;
    const off = () => ((n = (n * 48271) % 2147483647) / 2147483647 - 0.5) * 9;
    const line = (x0, y0, x1, y1) => {
      for (let k = 0; k < 2; k += 1) {
        g.beginPath();
        g.moveTo(x0 * 50 + off(), 1200 - y0 * 50 + off());
        g.quadraticCurveTo((x0 + x1) * 25 + off(), 1200 - (y0 + y1) * 25 + off(), x1 * 50 + off(), 1200 - y1 * 50 + off());
        g.stroke();
      }
    };
    for (const w of [[0.1, 0.1, 29.9, 0.1], [29.9, 0.1, 29.9, 23.9], [29.9, 23.9, 0.1, 23.9], [0.1, 23.9, 0.1, 0.1], [18, 0, 18, 24], [0, 14, 18, 14], [12, 14, 12, 24]]) line(...w);
    return c.toDataURL('image/png').split(',')[1];
  });

  for (const [device, size, scheme] of [['laptop', LAPTOP, 'light'], ['phone', PHONE, 'dark']]) {
    const p = await person(browser, server, { size, scheme, touch: size === PHONE });
    const { page } = p;
    const take = async (name) => {
      await page.evaluate(() => document.fonts.ready.then(() => undefined));
      await page.waitForTimeout(300);
      const png = await page.screenshot();
      if (process.env.PICTURES_TO) writeFileSync(`${OUT}/${name}-${device}.png`, png);
      else writeFileSync(`${OUT}/${name}-${device}.webp`, Buffer.from(await pressed(png), 'base64'));
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      assert(wide <= 0, `${name} on the ${device} is ${wide} px too wide`);
    };
    await p.go('/');
    await page.getByText('Lake Street 12').waitFor();
    await take('jobs');
    if (device === 'laptop') {
      await p.go(`/job/${id}/day`);
      await page.getByRole('button', { name: 'Begin pressure' }).click();
      await page.getByRole('button', { name: 'Begin', exact: true }).click();
      await page.getByText('No reading yet.').waitFor();
      // Three hours of nitrogen, read every half hour; the air cools and the pressure with it.
      const readings = Array.from({ length: 7 }, (_, i) => ({
        id: randomUUID(), at: new Date(Date.now() - (6 - i) * 1800_000).toISOString().slice(0, 19) + 'Z',
        pressure: `${(550.2 - i * 0.85).toFixed(1)} psi`, line: `${(70.1 - i * 0.8).toFixed(1)} F`,
      }));
      await server.ask('POST', `/api/jobs/${id}/readings`, { test: 'pressure 1', who: 'A. Fitter', readings });
      await page.reload();
      await page.locator('td', { hasText: '550.2 psi' }).waitFor();
    }
    for (const sheet of SHEETS) {
      await p.go(`/job/${id}/${sheet}`);
      await page.locator('.sheet').first().waitFor();
      await until(() => page.evaluate(() => !/Looking\.|Unrolling|Laying out|No plan yet/.test(document.body.innerText)), `${sheet} is laid out`);
      if (sheet === 'day') await page.getByRole('button', { name: 'pressure 1' }).click();
      await take(sheet);
      if (sheet !== 'winter') continue;
      for (const [name, below, waits] of [['choices', 'Choices side by side', 'Choices side by side'], ['bills', 'What the bills say', 'Bills beside the survey']]) {
        await page.getByRole('region', { name: waits, exact: true }).waitFor();
        await page.locator(`section[aria-label="Sheet 4, ${below}"]`).evaluate((e) => e.scrollIntoView({ block: 'start' }));
        await take(name);
      }
      await until(async () => (await server.ask('GET', `/api/jobs/${id}/bands`)).state === 'done', 'bands are worked out', BANDS);
      const bands = page.getByRole('region', { name: 'Bands of the choices', exact: true });
      await bands.getByRole('row', { name: /^chosen/ }).waitFor();
      await bands.evaluate((e) => e.scrollIntoView({ block: 'start' }));
      await take('bands');
    }
    if (device === 'laptop') await hold(server, id);
    await p.go(`/job/${id}/day`);
    await page.reload();
    await page.getByRole('button', { name: 'vacuum 1' }).click();
    await page.getByText('Holds.', { exact: true }).waitFor();
    await take('vacuum');
    await page.getByRole('button', { name: 'Charge', exact: true }).click();
    await page.getByLabel('Cylinder, its number').fill('7');
    await page.getByLabel('Scale before').fill('9.000 kg');
    await page.getByLabel('Scale after').fill('8.995 kg');
    await page.getByText('As typed').waitFor();
    await take('charge');
    await page.getByRole('button', { name: 'First run' }).click();
    await page.getByLabel('Only head running').selectOption('living');
    for (const [label, v] of Object.entries({ 'Outdoors, F': '44', 'Air into the head, F': '68', 'Air out of the head, F': '104', 'Minutes at one speed': '25', 'Power, W': '900', 'Air flow, cfm': '280' })) await page.getByLabel(label).fill(v);
    await page.getByText('As typed').waitFor();
    await take('run');
    await p.go(`/job/${id}/house`);
    await page.getByRole('button', { name: /^House loses/ }).click();
    await page.getByRole('dialog').getByText('Common practice', { exact: false }).first().waitFor();
    await take('why');
    await page.keyboard.press('Escape');
    await page.locator('.spot').first().click();
    await take('note');
    await page.getByRole('button', { name: 'Draw', exact: true }).click();
    await page.getByRole('button', { name: /^living, take in hand/ }).press('Enter');
    await page.evaluate(() => document.activeElement?.blur());
    await take('draw');
    await p.go('/');
    await page.getByLabel('Name of a new job').fill('Mill Lane 3');
    await page.getByRole('button', { name: 'Begin with one room' }).click();
    await page.waitForURL(/\/house$/);
    const begun = page.url().split('/').at(-2);
    await page.getByRole('button', { name: 'Draw', exact: true }).click();
    await page.getByLabel('Photo or scan to trace').setInputFiles({ name: 'sketch.png', mimeType: 'image/png', buffer: Buffer.from(await sketch(), 'base64') });
    await page.locator('.paper svg image').waitFor();
    await page.getByRole('button', { name: 'Set scale' }).click();
    const b = await page.locator('.paper svg image').boundingBox();
    for (const [u, v] of [[0.003, 0.996], [0.997, 0.996]]) await page.mouse.click(b.x + b.width * u, b.y + b.height * v);
    await page.getByLabel('Between the marks').fill('30 ft');
    await take('trace');
    await server.ask('DELETE', `/api/jobs/${begun}`);
    await p.go(`/job/${id}/share`);
    await page.getByRole('button', { name: /^For the owner: draft/ }).waitFor();
    await take('papers');
    await page.goto(server.url + shared);
    await page.getByText('House loses').first().waitFor();
    await until(() => page.evaluate(() => [...document.images].every((i) => i.complete) && document.querySelectorAll('.sheet').length > 3), 'the drawings are there');
    await take('shared');
    await p.leave();
  }
} finally {
  await browser.close();
  await server.end();
}
