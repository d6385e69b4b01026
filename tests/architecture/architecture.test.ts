import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { breaches, importsOf, type SourceFile } from './import-rule.ts';

const root = new URL('../..', import.meta.url).pathname;

function sourcesBelow(folder: string): SourceFile[] {
  return readdirSync(join(root, folder)).flatMap((name) => {
    const path = `${folder}/${name}`;
    if (statSync(join(root, path)).isDirectory()) return sourcesBelow(path);
    return /\.(ts|mjs)$/.test(name) ? [{ path, text: readFileSync(join(root, path), 'utf8') }] : [];
  });
}

const tree = ['src', 'adapters', 'simulators'].flatMap(sourcesBelow);
const injected = (path: string, text: string) => [
  ...tree.filter((file) => file.path !== path),
  { path, text },
];

describe('the import rule', () => {
  test('holds for the whole tree', () => {
    expect(tree.length).toBeGreaterThan(20);
    expect(breaches(tree)).toEqual([]);
  });

  test('refuses an injected upward import', () => {
    const found = breaches(injected('src/wire/upward.ts', `import { x } from '../grading/verdict.ts';`));
    expect(found).toEqual(['src/wire/upward.ts may not import src/grading/verdict.ts']);
  });

  test('refuses an import of the app from anywhere', () => {
    const found = breaches(injected('src/cli/upward.ts', `import '../app/main.ts';`));
    expect(found).toEqual(['src/cli/upward.ts may not import src/app/main.ts']);
  });

  test('refuses an injected cycle between two files of one folder', () => {
    const files = [
      ...tree,
      { path: 'src/crank/a.ts', text: `import type { B } from './b.ts';` },
      { path: 'src/crank/b.ts', text: `export { A } from './a.ts';` },
    ];
    expect(breaches(files)).toEqual(['cycle: src/crank/a.ts -> src/crank/b.ts -> src/crank/a.ts']);
  });

  test('refuses a dynamic import that goes upward', () => {
    const found = breaches(injected('src/link/late.ts', `const load = () => import('../signals/trace.ts');`));
    expect(found).toEqual(['src/link/late.ts may not import src/signals/trace.ts']);
  });

  test('keeps a package that has one owner with its owner', () => {
    const found = breaches(injected('src/jobs/db.ts', `import { openDB } from 'idb';`));
    expect(found).toEqual(['src/jobs/db.ts imports idb, which belongs to src/storage/database.ts']);
  });

  test('reads multi-line imports and re-exports', () => {
    const text = `import {\n  a,\n  type B,\n} from './x.ts';\nexport { c } from "./y.ts";\nimport './z.css';`;
    expect(importsOf({ path: 'src/ui/f.ts', text })).toEqual(['src/ui/x.ts', 'src/ui/y.ts', 'src/ui/z.css']);
  });
});

/** Where a word may stand, as the architecture document lists it. */
const CONFINED: readonly { word: RegExp; allowed: RegExp; why: string }[] = [
  {
    word: /\.subscribe\(/,
    allowed:
      /^src\/(app\/(session|run-desk|job-desk|main|pages\/(run|job)-page)|ui\/bound|recordings\/|cli\/)|^adapters\//,
    why: 'subscriptions live in the session, the binding controller, the recorder, adapters and command lines',
  },
  {
    word: /\bnavigator\b/,
    allowed: /^adapters\/|^src\/app\/capabilities/,
    why: 'navigator belongs to adapters',
  },
  { word: /#[0-9a-fA-F]{6}\b/, allowed: /^src\/ui\/tokens\.ts$/, why: 'colours belong to tokens' },
  { word: /\bTODO\b|\bFIXME\b/, allowed: /^$/, why: 'a doubt is an issue or a failing test' },
  { word: /unsafeHTML|innerHTML/, allowed: /^$/, why: 'imported text is never markup' },
];

const withoutComments = (text: string) =>
  text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/(^|[^:])\/\/.*$/gm, '$1');

describe('words that have one home', () => {
  test.each(CONFINED)('$why', ({ word, allowed }) => {
    const text = (file: SourceFile) =>
      String(word).includes('TODO') ? file.text : withoutComments(file.text);
    const found = tree
      .filter((file) => word.test(text(file)) && !allowed.test(file.path))
      .map((file) => file.path);
    expect(found).toEqual([]);
  });

  test('there is no folder or file called utils, helpers or common', () => {
    expect(
      tree.map((file) => file.path).filter((path) => /(^|\/)(utils?|helpers?|common)(\/|\.)/.test(path)),
    ).toEqual([]);
  });
});
