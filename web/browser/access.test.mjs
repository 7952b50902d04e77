// No accessibility violation on any sheet; everything by keyboard; printing; the size of the page.

import { readFileSync, readdirSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { brotliCompressSync, gzipSync } from 'node:zlib';
import { looked } from './axe.mjs';
import { assert, LAPTOP, person, PHONE, until } from './stage.mjs';

const SHEETS = ['visit', 'house', 'rooms', 'winter', 'year', 'outside', 'lines', 'day'];

async function violations(browser, server, size, scheme) {
  const id = await server.example();
  const p = await person(browser, server, { size, scheme });
  const { page } = p;
  await p.go('/');
  await page.getByText('Lake Street 12').waitFor();
  await looked(page, 'jobs');
  for (const s of SHEETS) {
    await p.go(`/job/${id}/${s}`);
    await page.locator('.sheet').first().waitFor();
    await until(() => page.evaluate(() => !/Looking\.|Unrolling|Laying out/.test(document.body.innerText)), `${s} is laid out`);
    await looked(page, s);
  }
  for (const part of ['Charge', 'First run']) {
    await page.getByRole('button', { name: part, exact: true }).click();
    await page.locator('.theday .live').waitFor();
    await looked(page, part);
  }
  await p.go(`/job/${id}/share`);
  await page.getByRole('region', { name: 'Papers' }).getByText(/as PDF|without the papers/).first().waitFor();
  await looked(page, 'papers, links, files');
  await p.go(`/job/${id}/house`);
  await page.getByRole('button', { name: 'Draw', exact: true }).click();
  await page.getByRole('button', { name: /^living, take in hand/ }).press('Enter');
  if (size === PHONE) await page.locator('.handle').click();
  await page.getByLabel('Heated to').waitFor();
  await looked(page, 'drawing');
  await page.getByRole('button', { name: 'Done' }).click();
  if (size === PHONE && (await page.locator('.drawer.shut').count()) > 0) await page.locator('.handle').click();
  await page.locator('[data-note] button.line').first().click();
  await page.locator('[data-note] .more').waitFor();
  await looked(page, 'a note');
  const why = page.locator('[data-note] .whys button').first();
  if ((await why.count()) > 0) {
    await why.click();
    await page.getByRole('dialog').getByText('Close').waitFor();
    await looked(page, 'a why');
  }
  await p.leave();
}

async function keyboard(browser, server) {
  const id = await server.example();
  const p = await person(browser, server, { size: LAPTOP });
  const { page } = p;
  const press = (k) => page.keyboard.press(k);
  const name = () => page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? document.activeElement?.textContent?.trim() ?? '');
  const tabTo = async (wanted, most = 160) => {
    for (let i = 0; i < most; i += 1) {
      if (wanted.test(await name())) return;
      await press('Tab');
    }
    throw new Error(`the keyboard does not reach ${wanted}; it stands at ${await name()}`);
  };
  await p.go('/');
  await page.getByText('Lake Street 12').waitFor();
  await tabTo(/^Lake Street 12/);
  await press('Enter');
  await page.waitForURL(/\/house$/);
  await page.getByRole('button', { name: /^House loses/ }).waitFor();
  // A note from the drawing.
  await tabTo(/^Stop 8/);
  await press('Enter');
  await page.locator('[data-note="8"] .more').waitFor();
  // A number unfolds and folds again, and the keyboard is where it was.
  await tabTo(/^House loses: .* Why$/);
  const at = await name();
  await press('Enter');
  await page.getByRole('dialog').waitFor();
  await press('Escape');
  assert((await page.getByRole('dialog').count()) === 0 && (await name()) === at, 'the keyboard returns to the number');
  // To the papers and back; a draft is taken by Enter.
  await tabTo(/^Papers, links, files$/);
  await press('Enter');
  await page.waitForURL(/\/share$/);
  await page.getByRole('button', { name: /^For the owner: draft/ }).waitFor();
  await page.evaluate(() => document.querySelector('#main')?.focus());
  await tabTo(/^For the owner: draft/);
  const [taken] = await Promise.all([page.waitForEvent('download'), press('Enter')]);
  assert(taken.suggestedFilename() === 'owner.pdf', 'a paper by keyboard');
  await page.getByRole('link', { name: /House/ }).first().focus();
  await press('Enter');
  await page.waitForURL(/\/house$/);
  // A wall is moved with the arrow keys.
  await page.evaluate(() => document.querySelector('#main')?.focus());
  await tabTo(/^Draw$/);
  await press('Enter');
  await tabTo(/^hall, take in hand/);
  await press('Enter');
  await tabTo(/^south wall of hall/);
  await press('ArrowUp');
  await press('ArrowUp');
  const moved = await until(async () => {
    const r = (await server.ask('GET', `/api/jobs/${id}`)).values.room.find((x) => x.name === 'hall');
    return r.outline.join('; ') === '0 ft, 15 ft; 12 ft, 15 ft; 12 ft, 24 ft; 0 ft, 24 ft' && r;
  }, 'the wall moved by two squares of half a foot');
  assert(moved !== null, 'moved');
  await page.keyboard.press('Control+z');
  await until(async () => (await server.ask('GET', `/api/jobs/${id}`)).values.room.find((x) => x.name === 'hall').outline[0] === '0 ft, 14 ft', 'undone by keyboard');
  // A room is drawn with arrows and Enter alone.
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'cellar' }).focus();
  await page.getByRole('button', { name: 'upper' }).focus();
  await press('Enter');
  const before = (await server.ask('GET', `/api/jobs/${id}`)).values.room.length;
  await page.getByRole('button', { name: 'New room', exact: true }).focus();
  await press('Enter');
  await tabTo(/^Paper for a new room/);
  for (let i = 0; i < 40; i += 1) await press('ArrowRight');
  await press('Enter');
  for (let i = 0; i < 12; i += 1) await press('ArrowRight');
  for (let i = 0; i < 12; i += 1) await press('ArrowUp');
  await press('Enter');
  await until(async () => (await server.ask('GET', `/api/jobs/${id}`)).values.room.length === before + 1, 'a room drawn by keyboard');
  await p.leave();
}

async function printing(browser, server) {
  const id = await server.example();
  const p = await person(browser, server, { size: LAPTOP, scheme: 'dark' });
  const { page } = p;
  await p.go(`/job/${id}/house`);
  await page.getByRole('button', { name: /^House loses/ }).waitFor();
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  const paper = await page.evaluate(() => ({
    ground: getComputedStyle(document.body).backgroundColor,
    ink: getComputedStyle(document.body).color,
    nav: [...document.querySelectorAll('nav, .tool, .drawer')].every((e) => e.getClientRects().length === 0),
    title: document.querySelector('.sheet .title')?.getClientRects().length,
    notes: document.querySelectorAll('[data-note]').length,
    drawn: document.querySelector('.paper svg')?.getBoundingClientRect().height ?? 0,
    skip: document.querySelector('.skip')?.getClientRects().length ?? 0,
  }));
  assert(paper.ground === 'rgb(255, 255, 255)' && paper.ink === 'rgb(0, 0, 0)', `ink on white even at night: ${JSON.stringify(paper)}`);
  assert(paper.nav && paper.title === 1 && paper.notes > 10 && paper.drawn > 200 && paper.skip === 0, `a drawing, its title block and its notes: ${JSON.stringify(paper)}`);
  // The papers' list, without what can only be pressed.
  await p.go(`/job/${id}/share`);
  const list = page.getByRole('region', { name: 'Papers' });
  await list.getByText('For the inspector').first().waitFor();
  const sheet = await page.evaluate(() => ({
    ink: getComputedStyle(document.querySelector('section[aria-label="Papers"]')).color,
    over: document.documentElement.scrollWidth - document.documentElement.clientWidth,
    nav: [...document.querySelectorAll('nav')].every((e) => e.getClientRects().length === 0),
  }));
  assert(sheet.ink === 'rgb(0, 0, 0)' && sheet.over <= 0 && sheet.nav, `the list of the papers prints: ${JSON.stringify(sheet)}`);
  await p.go(`/job/${id}/house`);
  await page.getByRole('button', { name: /^House loses/ }).waitFor();
  const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: true });
  assert(pdf.subarray(0, 5).toString() === '%PDF-' && pdf.length > 20_000, 'it prints');
  await p.leave();
}

async function size() {
  const dist = resolve(import.meta.dirname, '../dist');
  let zipped = 0;
  let packed = 0;
  const walk = (d) => {
    for (const f of readdirSync(d)) {
      const path = join(d, f);
      if (statSync(path).isDirectory()) walk(path);
      else {
        const bytes = readFileSync(path);
        zipped += /woff2$/.test(f) ? bytes.length : gzipSync(bytes, { level: 6 }).length;
        packed += /woff2$/.test(f) ? bytes.length : brotliCompressSync(bytes).length;
      }
    }
  };
  walk(dist);
  process.stdout.write(`       the whole page: ${Math.round(zipped / 1000)} kB by gzip, ${Math.round(packed / 1000)} kB by brotli\n`);
  assert(zipped < 250_000, `the page is ${zipped} bytes compressed; allowed are 250,000`);
}

async function noScrollBars(browser, server) {
  const id = await server.example();
  for (const size of [PHONE, { width: 360, height: 740 }, { width: 768, height: 1024 }, LAPTOP]) {
    const p = await person(browser, server, { size });
    for (const s of [...SHEETS, 'share']) {
      await p.go(`/job/${id}/${s}`);
      await p.page.locator('.sheet').first().waitFor();
      const over = await p.page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      assert(over <= 0, `${s} at ${size.width} is ${over} px too wide`);
    }
    // No two words on the plan touch each other.
    await p.go(`/job/${id}/house`);
    await p.page.locator('svg .label').first().waitFor();
    for (const storey of ['ground', 'upper', 'cellar']) {
      await p.page.getByRole('button', { name: new RegExp(`^${storey}`) }).first().click();
      await p.page.waitForTimeout(200);
      const met = await p.page.evaluate(() => {
        const words = [...document.querySelectorAll('.paper svg text')].map((t) => ({ t: t.textContent, b: t.getBoundingClientRect() })).filter((w) => w.b.width > 0);
        const out = [];
        words.forEach((a, i) => words.slice(i + 1).forEach((c) => {
          if (a.b.left < c.b.right - 1 && c.b.left < a.b.right - 1 && a.b.top < c.b.bottom - 3 && c.b.top < a.b.bottom - 3) out.push(`${a.t} / ${c.t}`);
        }));
        return out;
      });
      assert(met.length === 0, `words touch on ${storey} at ${size.width}: ${met.join(', ')}`);
    }
    await p.leave();
  }
}

export const tests = {
  'no accessibility violation, laptop, light': (b, s) => violations(b, s, LAPTOP, 'light'),
  'no accessibility violation, laptop, dark': (b, s) => violations(b, s, LAPTOP, 'dark'),
  'no accessibility violation, phone, light': (b, s) => violations(b, s, PHONE, 'light'),
  'no accessibility violation, phone, dark': (b, s) => violations(b, s, PHONE, 'dark'),
  'everything by keyboard alone': keyboard,
  'a sheet prints as a drawing, ink on white, also from the dark': printing,
  'the page is under 250 kB compressed': size,
  'nothing is wider than the screen, and no words touch on the plan': noScrollBars,
};
