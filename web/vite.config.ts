import { svelte } from '@sveltejs/vite-plugin-svelte';
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';

/** Writes the service worker with the list of files it keeps, named by what they hold. */
function keeper(): Plugin {
  return {
    name: 'keeper',
    apply: 'build',
    generateBundle(_, bundle) {
      const files = Object.keys(bundle)
        .filter((f) => !f.endsWith('.map'))
        .map((f) => `/${f}`);
      files.push('/', '/icon.svg', '/manifest.webmanifest');
      files.sort();
      const stamp = createHash('sha256');
      for (const name of Object.keys(bundle).sort()) {
        const part = bundle[name];
        if (part?.type === 'chunk') stamp.update(part.code);
        else if (part?.type === 'asset') stamp.update(part.source);
      }
      const worker = readFileSync('src/keeper.js', 'utf8');
      stamp.update(worker);
      this.emitFile({
        type: 'asset',
        fileName: 'keeper.js',
        source: worker
          .replace('__FILES__', JSON.stringify(files))
          .replace('__STAMP__', stamp.digest('hex').slice(0, 12)),
      });
    },
  };
}

export default defineConfig({
  plugins: [svelte(), keeper()],
  build: { target: 'es2022', sourcemap: false, assetsInlineLimit: 0, modulePreload: { polyfill: false } },
  server: { proxy: { '/api': process.env['NORTHWALL'] ?? 'http://127.0.0.1:4870' } },
  test: { include: ['test/**/*.test.ts'], environment: 'node' },
});
