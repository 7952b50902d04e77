// Takes the pictures of docs/pictures anew: every sheet, laptop and phone, day and night.

import { randomUUID } from 'node:crypto';
import { mkdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { LAPTOP, openBrowser, person, PHONE, Server, until } from './stage.mjs';

const OUT = resolve(import.meta.dirname, '../../docs/pictures');
mkdirSync(OUT, { recursive: true });
const SHEETS = ['visit', 'house', 'rooms', 'winter', 'year', 'outside', 'lines', 'day'];

const browser = await openBrowser();
const server = new Server();
try {
  await server.start();
  const id = await server.example();
  // The bills of the demo, read in as a person would.
  const slips = readFileSync(resolve(import.meta.dirname, '../../jobs/lake-street/bills/oil-slips.csv'));
  const read = await (await fetch(`${server.url}/api/jobs/${id}/bills/read`, { method: 'POST', headers: { 'content-type': 'application/octet-stream' }, body: slips })).json();
  await server.ask('POST', `/api/jobs/${id}/changes`, { id: randomUUID(), base_revision: 1, edits: read[0].bills.map((value) => ({ path: 'bill', value })) });
  for (const [device, size, scheme] of [['laptop', LAPTOP, 'light'], ['phone', PHONE, 'dark']]) {
    const p = await person(browser, server, { size, scheme, touch: size === PHONE });
    const { page } = p;
    const take = async (name) => {
      await page.evaluate(() => document.fonts.ready.then(() => undefined));
      await page.waitForTimeout(300);
      await page.screenshot({ path: `${OUT}/${name}-${device}.png` });
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
      await take(sheet);
      if (sheet !== 'winter') continue;
      for (const [name, below, waits] of [['choices', 'Choices side by side', 'Choices side by side'], ['bills', 'What the bills say', 'Bills beside the survey']]) {
        await page.getByRole('region', { name: waits, exact: true }).waitFor();
        await page.locator(`section[aria-label="Sheet 4, ${below}"]`).evaluate((e) => e.scrollIntoView({ block: 'start' }));
        await take(name);
      }
    }
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
    await p.leave();
  }
} finally {
  await browser.close();
  await server.end();
}
