import { fileURLToPath } from 'node:url';
import tseslint from 'typescript-eslint';
import rxjsX from 'eslint-plugin-rxjs-x';
import { configs as lit } from 'eslint-plugin-lit';
import litA11y from 'eslint-plugin-lit-a11y';
import { configs as wc } from 'eslint-plugin-wc';

const root = fileURLToPath(new URL('../..', import.meta.url));
const banned = (name, why) => ({ selector: name, message: why });

/** Clocks, chance and console belong to composition roots; time is an argument everywhere else. */
const impure = [
  banned('CallExpression[callee.object.name="Date"][callee.property.name="now"]', 'time is an argument'),
  banned('NewExpression[callee.name="Date"][arguments.length=0]', 'time is an argument'),
  banned('CallExpression[callee.object.name="Math"][callee.property.name="random"]', 'chance is seeded'),
  banned('CallExpression[callee.object.name="performance"]', 'time is an argument'),
];
const style = [
  banned('TSEnumDeclaration', 'use a union of literals'),
  banned('ExportDefaultDeclaration', 'export by name'),
  banned('ExportAllDeclaration', 'no barrel files'),
];

export default [
  { ignores: ['dist/**', 'node_modules/**', 'coverage/**', '.vite/**', 'tests/e2e/shots/**'] },
  ...tseslint.configs.recommended.map((config) => ({ ...config, files: ['**/*.ts'] })),
  { ...lit['flat/recommended'], files: ['src/**/*.ts'] },
  { ...wc['flat/recommended'], files: ['src/**/*.ts'] },
  {
    files: ['src/ui/**/*.ts', 'src/app/**/*.ts'],
    plugins: { 'lit-a11y': litA11y },
    rules: { ...litA11y.configs.recommended.rules },
  },
  {
    files: ['**/*.ts'],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: root } },
    plugins: { 'rxjs-x': rxjsX },
    rules: {
      '@typescript-eslint/no-explicit-any': 'error',
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/no-redeclare': 'off', // a Zod schema and its type share a name
      '@typescript-eslint/switch-exhaustiveness-check': 'error',
      'rxjs-x/no-nested-subscribe': 'error',
      'rxjs-x/no-ignored-subscription': 'error',
      'rxjs-x/no-exposed-subjects': 'error',
      'rxjs-x/no-unsafe-takeuntil': 'error',
      'rxjs-x/no-sharereplay': ['error', { allowConfig: true }],
      'no-console': 'error',
      'no-restricted-syntax': ['error', ...style],
      'max-lines': ['error', { max: 300, skipBlankLines: true, skipComments: true }],
      complexity: ['error', 12],
      'max-params': ['error', 4],
      eqeqeq: 'error',
    },
  },
  {
    files: ['src/**/*.ts', 'adapters/**/*.ts', 'simulators/**/*.ts'],
    ignores: ['src/cli/**', 'src/app/**', 'simulators/cli/**'],
    rules: {
      'no-restricted-syntax': ['error', ...style, ...impure],
      'max-lines-per-function': ['error', { max: 40, skipBlankLines: true, skipComments: true }],
    },
  },
  {
    files: ['src/app/**/*.ts', 'src/ui/**/*.ts', 'src/storage/**/*.ts'],
    rules: { 'wc/guard-super-call': 'off' },
  },
  {
    files: ['src/cli/**', 'simulators/cli/**', 'tests/**'],
    rules: { 'no-console': 'off' },
  },
  { files: ['vite.config.ts'], rules: { 'no-restricted-syntax': 'off' } },
];
