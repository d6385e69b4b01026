/**
 * The import rule of the project as data and a pure checker. Keys and values are folders (or single files) below the
 * project root; a file may import its own folder and what its row names. No cycles between files.
 */
export const ALLOWED: Readonly<Record<string, readonly string[]>> = {
  'src/quantities': [],
  'src/problems': [],
  'src/link': ['src/quantities', 'src/problems'],
  'src/wire': ['src/quantities', 'src/problems', 'src/link'],
  'src/j1939': ['src/quantities', 'src/problems', 'src/wire'],
  'src/signals': ['src/quantities', 'src/problems', 'src/j1939'],
  'src/crank': ['src/quantities', 'src/problems', 'src/signals'],
  'src/limits': ['src/quantities', 'src/problems'],
  'src/tracing': ['src/quantities', 'src/problems'],
  'src/checks': ['src/quantities', 'src/problems', 'src/signals', 'src/crank', 'src/limits'],
  'src/grading': ['src/quantities', 'src/problems', 'src/signals', 'src/crank', 'src/limits', 'src/checks'],
  'src/procedures': [
    'src/quantities',
    'src/problems',
    'src/signals',
    'src/crank',
    'src/limits',
    'src/checks',
    'src/grading',
  ],
  'src/logs': ['src/quantities', 'src/problems', 'src/link', 'src/wire'],
  'src/pipeline': [
    'src/quantities',
    'src/problems',
    'src/link',
    'src/wire',
    'src/j1939',
    'src/signals',
    'src/crank',
    'src/logs',
  ],
  'src/storage': ['src/quantities', 'src/problems'],
  'src/recordings': ['src/quantities', 'src/problems', 'src/link', 'src/wire', 'src/storage'],
  'src/jobs': [
    'src/quantities',
    'src/problems',
    'src/link',
    'src/j1939',
    'src/signals',
    'src/crank',
    'src/pipeline',
    'src/limits',
    'src/checks',
    'src/grading',
    'src/procedures',
    'src/storage',
    'src/recordings',
  ],
  'src/training': [
    'src/quantities',
    'src/problems',
    'src/checks',
    'src/grading',
    'src/procedures',
    'src/storage',
    'src/jobs',
    'simulators',
  ],
  'src/report': [
    'src/quantities',
    'src/problems',
    'src/crank',
    'src/limits',
    'src/checks',
    'src/grading',
    'src/jobs',
  ],
  'src/ui': [
    'src/quantities',
    'src/problems',
    'src/signals',
    'src/crank',
    'src/limits',
    'src/checks',
    'src/grading',
    'src/procedures',
    'src/tracing',
  ],
  adapters: ['src/quantities', 'src/problems', 'src/link', 'src/wire', 'src/logs', 'simulators'],
  simulators: ['src/quantities', 'src/problems', 'src/wire', 'src/j1939', 'src/link'],
  'src/cli': ['*'],
  'src/app': ['*'],
  'vite.config.ts': [],
};

/** Packages that only one file may import. */
export const ONE_OWNER: Readonly<Record<string, string>> = {
  uplot: 'src/ui/strip-chart.ts',
  idb: 'src/storage/database.ts',
  papaparse: 'src/logs/split-cells.ts',
  'papaparse/papaparse.js': 'src/logs/split-cells.ts',
};

export interface SourceFile {
  readonly path: string;
  readonly text: string;
}

/** What a file imports or re-exports: relative paths resolved from the root, packages by name. */
export function importsOf({ path, text }: SourceFile): readonly string[] {
  const found: string[] = [];
  const pattern =
    /(?:^|\n)\s*(?:import|export)\b[^'"`;]*?from\s*['"]([^'"]+)['"]|import\s*\(?\s*['"]([^'"]+)['"]/g;
  for (const match of text.matchAll(pattern)) {
    const target = match[1] ?? match[2] ?? '';
    found.push(target.startsWith('.') ? resolve(path, target) : target);
  }
  return found;
}

function resolve(from: string, target: string): string {
  const parts = from.split('/').slice(0, -1);
  for (const step of target.split('/')) {
    if (step === '..') parts.pop();
    else if (step !== '.') parts.push(step);
  }
  return parts.join('/').replace(/\?.*$/, '');
}

const folderOf = (path: string): string =>
  Object.keys(ALLOWED).find((folder) => path === folder || path.startsWith(`${folder}/`)) ?? '(none)';

const isOwn = (target: string): boolean => folderOf(target) !== '(none)';

/** Every breach of the rule in the tree, each as a sentence. An empty list is a clean tree. */
export function breaches(files: readonly SourceFile[]): readonly string[] {
  const graph = new Map(files.map((file) => [file.path, importsOf(file)]));
  const found: string[] = [];
  for (const [path, targets] of graph) {
    const folder = folderOf(path);
    const allowed = ALLOWED[folder];
    if (!allowed) {
      found.push(`${path} lies in no folder of the import table`);
      continue;
    }
    for (const target of targets) found.push(...breach(path, folder, allowed, target));
  }
  return [...found, ...cycles(graph)];
}

function breach(path: string, folder: string, allowed: readonly string[], target: string): readonly string[] {
  if (!isOwn(target)) {
    const owner = ONE_OWNER[target];
    return owner && owner !== path ? [`${path} imports ${target}, which belongs to ${owner}`] : [];
  }
  const to = folderOf(target);
  if (to === folder) return [];
  if (to === 'src/app' || (!allowed.includes('*') && !allowed.includes(to)))
    return [`${path} may not import ${target}`];
  return [];
}

function cycles(graph: ReadonlyMap<string, readonly string[]>): readonly string[] {
  const state = new Map<string, 'open' | 'done'>();
  const found: string[] = [];
  const visit = (path: string, trail: readonly string[]): void => {
    if (state.get(path) === 'open')
      found.push(`cycle: ${[...trail.slice(trail.indexOf(path)), path].join(' -> ')}`);
    if (state.has(path)) return;
    state.set(path, 'open');
    for (const target of graph.get(path) ?? []) if (graph.has(target)) visit(target, [...trail, path]);
    state.set(path, 'done');
  };
  for (const path of graph.keys()) visit(path, []);
  return found;
}
