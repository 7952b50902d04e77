// Papers from the page: what stands against each, a file that is a PDF, and no signal said as such.

import { readFileSync } from 'node:fs';
import { assert, LAPTOP, person, PHONE, until } from './stage.mjs';

async function papers(browser, server) {
  const id = await server.example();
  const p = await person(browser, server, { size: LAPTOP });
  await p.go(`/job/${id}/share`);
  const sheet = p.page.getByRole('region', { name: 'Papers' });
  await sheet.getByText('For the inspector').first().waitFor();
  const gate = await server.ask('GET', `/api/jobs/${id}/papers`);
  assert(gate.papers.length === 4, `four papers: ${JSON.stringify(gate.papers.map((x) => x.reader))}`);
  const words = await sheet.innerText();
  for (const paper of gate.papers) {
    assert(paper.against.length > 0, `the example is a draft for the ${paper.reader}`);
    assert(words.includes(paper.name), `${paper.name} is on the sheet`);
    for (const a of paper.against.filter(() => paper.against.length < 5)) assert(words.includes(a.says) && words.includes(a.mend), `${paper.name}: ${a.says}`);
  }
  assert(words.includes(gate.code), 'the code is on the sheet');

  await sheet.getByLabel('Sheets').selectOption('a4');
  const [file] = await Promise.all([p.page.waitForEvent('download'), sheet.getByRole('button', { name: /^For the inspector: draft/ }).click()]);
  assert(file.suggestedFilename() === 'inspector.pdf', file.suggestedFilename());
  const bytes = readFileSync(await file.path());
  const text = bytes.toString('latin1');
  assert(text.startsWith('%PDF-') && bytes.length > 20_000, `a PDF of ${bytes.length} bytes`);

  // What is mended goes from the list without the sheet being left.
  const before = gate.papers.find((x) => x.reader === 'crew').against.length;
  await server.ask('POST', `/api/jobs/${id}/changes`, { id: crypto.randomUUID(), base_revision: 1, edits: [{ path: 'programme.number', value: null, was: 'R-26-0915' }] });
  const after = await server.ask('GET', `/api/jobs/${id}/papers`);
  assert(after.code !== gate.code, 'another job has another code');
  assert(after.papers.find((x) => x.reader === 'crew').against.length === before, 'the crew does not need the number');
  assert(after.papers.find((x) => x.reader === 'rebate').against.some((a) => a.says.includes('number of the application')), 'the rebate does');
  await p.page.reload();
  await sheet.getByText('The number of the application').waitFor({ state: 'attached' });
  await sheet.getByText(after.code).waitFor();
  await p.leave();

  const phone = await person(browser, server, { size: PHONE, touch: true });
  await phone.go(`/job/${id}/share`);
  await phone.page.getByRole('button', { name: /^For the owner: draft/ }).waitFor();
  const wide = await phone.page.evaluate(() => document.documentElement.scrollWidth);
  assert(wide <= PHONE.width, `nothing is wider than the phone: ${wide}`);
  await phone.context.setOffline(true);
  await phone.page.getByText('there is no signal now', { exact: false }).first().waitFor();
  await until(() => phone.page.getByRole('button', { name: /^For the owner: draft/ }).isDisabled(), 'no file is promised without signal');
  await phone.context.setOffline(false);
  await until(() => phone.page.getByRole('button', { name: /^For the owner: draft/ }).isEnabled(), 'and it is there again with signal');
  await phone.leave();
}

export const tests = {
  'the papers: what stands against each, a PDF, and no signal': papers,
};
