import js from '@eslint/js';
import svelte from 'eslint-plugin-svelte';
import globals from 'globals';
import ts from 'typescript-eslint';
import svelteConfig from './svelte.config.js';

export default [
  { ignores: ['dist', 'node_modules', 'src/api/schema.d.ts'] },
  js.configs.recommended,
  ...ts.configs.strict,
  ...svelte.configs['flat/recommended'],
  {
    languageOptions: { globals: { ...globals.browser, ...globals.serviceworker, ...globals.node } },
    rules: {
      // The types know what is there; runtime checks stand at the edge, where answers come in.
      '@typescript-eslint/no-non-null-assertion': 'error',
      'no-undef': 'off',
    },
  },
  {
    files: ['**/*.svelte', '**/*.svelte.ts'],
    // Dates and maps here are made, used and dropped; none of them is looked at by a view.
    rules: { 'svelte/prefer-svelte-reactivity': 'off' },
    languageOptions: { parserOptions: { parser: ts.parser, svelteConfig } },
  },
];
