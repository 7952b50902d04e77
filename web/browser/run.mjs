// Runs the tests of the page in the distribution's own browser, each with a server of its own.

import { readdirSync } from 'node:fs';
import { openBrowser, Server } from './stage.mjs';

const only = process.argv.slice(2);
const files = readdirSync(new URL('.', import.meta.url)).filter((f) => f.endsWith('.test.mjs')).sort();
const browser = await openBrowser();
let failed = 0;
for (const file of files) {
  const { tests } = await import(`./${file}`);
  for (const [name, run] of Object.entries(tests)) {
    if (only.length > 0 && !only.some((o) => `${file} ${name}`.includes(o))) continue;
    const server = new Server();
    try {
      await server.start();
      await run(browser, server);
      process.stdout.write(`holds  ${name}\n`);
    } catch (e) {
      failed += 1;
      process.stdout.write(`FAILS  ${name}\n       ${e instanceof Error ? (e.stack ?? e.message) : String(e)}\n`);
    } finally {
      for (const c of browser.contexts()) await c.close();
      await server.end();
    }
  }
}
await browser.close();
process.exit(failed === 0 ? 0 : 1);
