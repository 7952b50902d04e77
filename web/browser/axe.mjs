// No violation of WCAG 2.2 AA or of best practice, by axe-core.

import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { assert } from './stage.mjs';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

export async function looked(page, where) {
  await page.evaluate(axe);
  const found = await page.evaluate(() => window.axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] }));
  const says = found.violations.map((v) => `${v.id}: ${v.help} at ${v.nodes.slice(0, 3).map((n) => n.target.join(' ')).join(', ')}`);
  assert(says.length === 0, `${where}: ${says.join('\n')}`);
}
