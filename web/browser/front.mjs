// For work on the page: the newest web/dist before a program that was built with an older one.
// Used where PAGE_FRONT=1; a release is tested without it.

import { existsSync, readFileSync } from 'node:fs';
import { createServer, request } from 'node:http';
import { extname, join, resolve } from 'node:path';

const DIST = resolve(import.meta.dirname, '../dist');
const KINDS = { '.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css', '.svg': 'image/svg+xml', '.woff2': 'font/woff2', '.webmanifest': 'application/manifest+json' };

export function front(port, behind) {
  const server = createServer((q, r) => {
    if (q.url.startsWith('/api')) {
      const on = request({ host: '127.0.0.1', port: behind, path: q.url, method: q.method, headers: q.headers }, (a) => {
        r.writeHead(a.statusCode, a.headers);
        a.pipe(r);
      });
      on.on('error', () => r.destroy());
      q.pipe(on);
      return;
    }
    const path = join(DIST, q.url.split('?')[0]);
    const file = q.url !== '/' && existsSync(path) && extname(path) !== '' ? path : join(DIST, 'index.html');
    r.writeHead(200, { 'content-type': KINDS[extname(file)] ?? 'application/octet-stream', 'cache-control': 'no-cache' });
    r.end(readFileSync(file));
  });
  return new Promise((good) => server.listen(port, '127.0.0.1', () => good(server)));
}
