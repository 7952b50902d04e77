// People: an invitation taken up, roles, signing out; and the homeowner's link.

import { execFileSync } from 'node:child_process';
import { assert, LAPTOP, person, PHONE, PROGRAM } from './stage.mjs';

async function link(browser, server) {
  const id = await server.example();
  const p = await person(browser, server, { size: LAPTOP });
  await p.go(`/job/${id}/share`);
  await p.page.getByRole('button', { name: 'Make a link' }).click();
  const shown = await p.page.locator('.once b').textContent();
  assert(shown.startsWith(`${server.url}/shared/`), `a link of this server: ${shown}`);

  const owner = await person(browser, server, { size: PHONE, touch: true });
  await owner.page.goto(shown);
  await owner.page.getByText('House loses').first().waitFor();
  await owner.page.getByText('Choices side by side').first().waitFor();
  const words = await owner.page.evaluate(() => document.body.innerText);
  assert(!/Stop:|gutter|torque|\/api\/jobs/i.test(words), 'nothing of the firm is on the homeowner\'s page');
  assert((await owner.page.getByRole('button', { name: 'Draw' }).count()) === 0, 'and nothing to change');

  await p.page.getByRole('button', { name: 'Withdraw' }).click();
  await p.page.getByText('withdrawn', { exact: false }).first().waitFor();
  await owner.page.reload();
  await owner.page.getByText('This link opens nothing.', { exact: false }).waitFor();
  await owner.leave();
  await p.leave();
}

async function firm(browser, server) {
  const out = execFileSync(PROGRAM, ['invite', '--firm', 'Firm A', '--name', 'Ada', '--email', 'ada@a.example', '--folder', server.folder], { encoding: 'utf8' });
  const token = /\/invited\/([^\s"]+)/.exec(out)?.[1];
  assert(token, `the command shows where to go: ${out}`);
  await server.kill();
  server.more = ['--sign-in'];
  await server.start();

  const ada = await person(browser, server, { size: LAPTOP });
  await ada.go('/');
  await ada.page.getByText('Who is there?').waitFor();
  await ada.page.goto(`${server.url}/invited/${token}`);
  await ada.page.getByLabel('Password').fill('a long enough word');
  await ada.page.getByRole('button', { name: 'Come in' }).click();
  await ada.page.getByText('Firm A', { exact: false }).first().waitFor();
  await ada.page.getByRole('button', { name: 'Open the example' }).click();
  await ada.page.waitForURL(/\/house$/);
  await ada.page.getByRole('button', { name: /^House loses/ }).waitFor();
  const job = ada.page.url().split('/')[5];

  // A reader is invited on the page, comes in, looks, and finds nothing to change.
  await ada.go('/people');
  await ada.page.getByLabel('Name', { exact: true }).fill('Rey');
  await ada.page.getByLabel('Address', { exact: true }).fill('rey@a.example');
  await ada.page.locator('form select').selectOption('reader');
  await ada.page.getByRole('button', { name: 'Make an invitation' }).click();
  const shown = await ada.page.locator('.once b').textContent();
  const rey = await person(browser, server, { size: PHONE, touch: true });
  await rey.page.goto(shown);
  await rey.page.getByLabel('Password').fill('another long word');
  await rey.page.getByRole('button', { name: 'Come in' }).click();
  await rey.page.getByText('reader', { exact: false }).first().waitFor();
  await rey.go(`/job/${job}/house`);
  await rey.page.getByRole('button', { name: /^House loses/ }).waitFor();
  assert((await rey.page.getByRole('button', { name: 'Draw', exact: true }).count()) === 0, 'a reader does not draw');
  await rey.page.getByText('drawing is for a designer or an owner', { exact: false }).waitFor();
  await rey.go(`/job/${job}/visit`);
  await rey.page.getByText('changing the job is for a designer or an owner', { exact: false }).waitFor();
  assert(await rey.page.getByLabel('Snow to bet the unit on').isDisabled(), 'a reader does not type');
  assert((await rey.page.locator('.three button:enabled, .photo:enabled').count()) === 0, 'a reader neither says how things are known nor photographs');

  // Out: the door is shut and nothing of the firm stays on the phone.
  await rey.go('/');
  await rey.page.getByRole('button', { name: 'Sign out' }).click();
  await rey.page.getByText('Who is there?').waitFor();
  const left = await rey.page.evaluate(() => new Promise((good) => {
    const r = indexedDB.open('northwall');
    r.onsuccess = () => {
      const q = r.result.transaction('jobs').objectStore('jobs').count();
      q.onsuccess = () => good(q.result);
    };
  }));
  assert(left === 0, 'no job stays on the phone');
  await rey.page.getByLabel('Address').fill('rey@a.example');
  await rey.page.getByLabel('Password').fill('not the word');
  await rey.page.getByRole('button', { name: 'Sign in' }).click();
  await rey.page.getByRole('alert').waitFor();
  await rey.page.getByLabel('Password').fill('another long word');
  await rey.page.getByRole('button', { name: 'Sign in' }).click();
  await rey.page.getByText('Lake Street 12').waitFor();
  await ada.page.reload();
  await ada.page.getByRole('rowheader', { name: 'Rey' }).waitFor();
  await rey.leave();
  await ada.leave();
}

export const tests = {
  'a link for the homeowner, made and withdrawn': link,
  'people are invited, come in, look by their role, and sign out': firm,
};
