// A server of its own for every test, and phones and laptops that look at it.

import { spawn } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { chromium } from 'playwright-core';
import { front } from './front.mjs';

const HERE = resolve(import.meta.dirname, '..');
export const PROGRAM = process.env.NORTHWALL_PROGRAM ?? resolve(HERE, '../target/debug/northwall');
const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium';

export const LAPTOP = { width: 1380, height: 860 };
export const PHONE = { width: 390, height: 844 };
/** This machine may be slow and shared; a test never measures time. */
export const PATIENCE = 60_000;

export function assert(holds, says) {
  if (!holds) throw new Error(says);
}

async function freePort() {
  return new Promise((good) => {
    const s = createServer().listen(0, '127.0.0.1', () => {
      const { port } = s.address();
      s.close(() => good(port));
    });
  });
}

export class Server {
  constructor() {
    assert(existsSync(PROGRAM), `no program at ${PROGRAM}. mend: cargo build -p northwall, or set NORTHWALL_PROGRAM`);
    assert(existsSync(join(HERE, 'dist/index.html')), 'the page is not built. mend: make web');
    this.folder = mkdtempSync(join(tmpdir(), 'northwall-page-'));
  }

  async start() {
    this.port ??= await freePort();
    this.url = `http://localhost:${this.port}`;
    this.behind = process.env.PAGE_FRONT === '1' ? (this.behind ?? (await freePort())) : this.port;
    if (this.behind !== this.port) this.front = await front(this.port, this.behind);
    this.child = spawn(PROGRAM, ['serve', '--port', String(this.behind), '--folder', this.folder, ...(this.more ?? [])], { stdio: ['ignore', 'pipe', 'pipe'] });
    let said = '';
    this.child.stderr.on('data', (d) => (said += d));
    for (let i = 0; i < 600; i += 1) {
      try {
        if ((await fetch(`${this.url}/api/health`)).ok) return this;
      } catch {
        // Not listening yet.
      }
      assert(this.child.exitCode === null, `the server ended: ${said}`);
      await new Promise((r) => setTimeout(r, 100));
    }
    throw new Error('the server did not begin to answer');
  }

  /** As when somebody pulls the plug: nothing is said goodbye to. */
  async kill() {
    const gone = new Promise((r) => this.child.once('exit', r));
    this.child.kill('SIGKILL');
    await gone;
    if (this.front) {
      this.front.closeAllConnections();
      await new Promise((r) => this.front.close(r));
    }
  }

  async end() {
    if (this.child && this.child.exitCode === null && this.child.signalCode === null) await this.kill();
    rmSync(this.folder, { recursive: true, force: true });
  }

  async ask(method, path, body) {
    const r = await fetch(this.url + path, { method, headers: { 'content-type': 'application/json' }, body: body === undefined ? undefined : JSON.stringify(body) });
    const text = await r.text();
    assert(r.ok, `${method} ${path}: ${r.status} ${text.slice(0, 400)}`);
    return text === '' ? null : JSON.parse(text);
  }

  async example() {
    const id = randomUUID();
    await this.ask('POST', '/api/jobs', { id, template: 'example', name: 'Lake Street 12' });
    return id;
  }
}

export async function openBrowser() {
  return chromium.launch({
    executablePath: CHROMIUM,
    args: ['--headless', '--no-sandbox', '--disable-gpu', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
  });
}

/** A person with a device. Errors of the page and requests to elsewhere end the test. */
export async function person(browser, server, { size = LAPTOP, scheme = 'light', touch = false } = {}) {
  const context = await browser.newContext({ viewport: size, colorScheme: scheme, hasTouch: touch, reducedMotion: 'reduce', timezoneId: 'America/Chicago', locale: 'en-US' });
  context.setDefaultTimeout(PATIENCE);
  const page = await context.newPage();
  const wrong = [];
  page.on('pageerror', (e) => wrong.push(`error on the page: ${e.message}`));
  page.on('request', (r) => {
    const u = new URL(r.url());
    if (u.protocol.startsWith('http') && u.origin !== server.url) wrong.push(`asked elsewhere: ${r.url()}`);
  });
  page.on('console', (m) => {
    // The browser looks for a newer keeper of the page by itself, also while the server is killed.
    if (m.type() === 'error' && !/Failed to load resource|ERR_CONNECTION|error occurred when fetching the script/.test(m.text())) wrong.push(`console: ${m.text()}`);
  });
  return {
    context, page,
    go: (path) => page.goto(`${server.url}/#${path}`),
    async leave() {
      await context.close();
      assert(wrong.length === 0, wrong.join('\n'));
    },
  };
}

/** Until something is so, or patience ends. */
export async function until(what, says, patience = PATIENCE) {
  const end = Date.now() + patience;
  let last;
  while (Date.now() < end) {
    try {
      last = await what();
      if (last) return last;
    } catch (e) {
      last = e;
    }
    await new Promise((r) => setTimeout(r, 150));
  }
  throw new Error(`${says}; last: ${last instanceof Error ? last.message : JSON.stringify(last)}`);
}
