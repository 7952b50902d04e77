// A phone with a slow line and a slow processor: what must hold is that the page opens and can be
// used. How long it takes is printed for docs/page.md and not judged here: machines differ.

import { assert, person, PHONE } from './stage.mjs';

/** A fair line of a mobile network and a plain phone. Common practice, no source. */
const LINE = { offline: false, latency: 150, downloadThroughput: (1.6e6 / 8), uploadThroughput: (0.75e6 / 8) };
const SLOWER = 4;

async function slow(browser, server) {
  const p = await person(browser, server, { size: PHONE, touch: true });
  const { page } = p;
  const tools = await p.context.newCDPSession(page);
  await tools.send('Network.enable');
  await tools.send('Network.emulateNetworkConditions', LINE);
  await tools.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
  // The moment at which the way to a first job can be pressed, by the page's own clock.
  await page.addInitScript(() => {
    const look = () => {
      const begin = [...document.querySelectorAll('button')].find((b) => /usual house/.test(b.textContent ?? '') && !b.disabled);
      if (begin && begin.getBoundingClientRect().height > 0) window.usableAt ??= performance.now();
      else requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  });
  await p.go('/');
  await page.waitForFunction(() => window.usableAt !== undefined);
  const seen = await page.evaluate(() => {
    const [way] = performance.getEntriesByType('navigation');
    const parts = performance.getEntriesByType('resource').filter((r) => !r.name.includes('/api/'));
    const first = performance.getEntriesByName('first-contentful-paint')[0];
    return { usable: window.usableAt, ink: first?.startTime ?? 0, bytes: way.encodedBodySize + parts.reduce((s, r) => s + r.encodedBodySize, 0) };
  });
  process.stdout.write(`       slow phone: first ink ${(seen.ink / 1000).toFixed(2)} s, usable ${(seen.usable / 1000).toFixed(2)} s, ${Math.round(seen.bytes / 1000)} kB came\n`);
  // Not the page's speed: that the browser holds the line back at all, so that the figure means something.
  const asked = await page.evaluate(async () => {
    const at = performance.now();
    await fetch('/api/health');
    return performance.now() - at;
  });
  assert(asked >= LINE.latency * 0.9, `the line is slow in this test: ${asked} ms for the least question`);
  assert(seen.bytes > 0 && seen.bytes < 250_000, `before the first plan come ${seen.bytes} bytes`);
  await page.getByLabel('Name of a new job').fill('Slow Lane 1');
  await page.getByRole('button', { name: 'Begin with a usual house' }).tap();
  await page.waitForURL(/\/visit$/);
  await page.getByText('How each thing is known').waitFor();
  await p.leave();
}

export const tests = {
  'a phone with a slow line and a slow processor opens the page and begins a job': slow,
};
