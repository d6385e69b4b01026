// Takes pictures of the gallery for a person to look at: node tests/ui/gallery-shots.mjs OUT_FOLDER [part …]
import { mkdirSync } from 'node:fs';
import { chromium } from 'playwright';
import { createServer } from 'vite';

const ALL = [
  'run',
  'tiles',
  'entry',
  'verdicts',
  'charts',
  'rest',
  'sources',
  'health',
  'monitor',
  'facts',
  'forms',
  'ask',
  'settings',
  'trace',
  'photo',
  'curves',
  'sheetform',
  'sheetlist',
  'sheetimport',
  'checkorder',
  'fuelpath',
  'whatnext',
  'jobform',
  'conclusion',
  'worklist',
  'joblist',
  'beforeafter',
  'jobsheet',
  'stopwatch',
  'steady',
  'inspect',
  'curve',
  'drive',
];
const [out = '/tmp/gallery', ...wanted] = process.argv.slice(2);
const parts = wanted.length > 0 ? wanted : ALL;
const sizes = [
  { width: 1280, height: 800 },
  { width: 390, height: 844 },
];
mkdirSync(out, { recursive: true });
const root = new URL('../..', import.meta.url).pathname;
const server = await createServer({
  configFile: false,
  root,
  cacheDir: '/tmp/gallery-cache',
  logLevel: 'error',
});
await server.listen(0);
const base = `${server.resolvedUrls?.local[0]}tests/ui/gallery.html`;
const browser = await chromium.launch({
  executablePath: process.env['MENISCUS_CHROMIUM'] ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu'],
});
for (const colorScheme of ['light', 'dark']) {
  for (const viewport of sizes) {
    const page = await browser.newPage({ viewport, colorScheme });
    page.on('pageerror', (error) => console.error(error.message));
    page.on('console', (message) => message.type() === 'error' && console.error(message.text()));
    for (const part of parts) {
      await page.goto(`${base}#${part}`);
      await page.reload();
      await page.waitForTimeout(900);
      await page.screenshot({ path: `${out}/${part}-${colorScheme}-${viewport.width}.png`, fullPage: true });
    }
    await page.close();
  }
}
const paper = await browser.newPage({ viewport: { width: 794, height: 1123 }, colorScheme: 'dark' });
await paper.emulateMedia({ media: 'print', colorScheme: 'dark' });
for (const part of parts) {
  await paper.goto(`${base}#${part}`);
  await paper.reload();
  await paper.waitForTimeout(900);
  await paper.screenshot({ path: `${out}/${part}-print.png`, fullPage: true });
}
await browser.close();
await server.close();
