import { existsSync } from 'node:fs';
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright';
import { preview } from 'vite';

const configFile = new URL('../../vite.config.ts', import.meta.url).pathname;

export const CHROMIUM = process.env['MENISCUS_CHROMIUM'] ?? '/usr/bin/chromium';

/** Why the end-to-end tests cannot run here, or null. */
export const noBrowser: string | null = existsSync(CHROMIUM) ? null : `no Chromium at ${CHROMIUM}`;

/** What every browser of these tests is started with. */
export const BROWSER_ARGS: readonly string[] = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export interface Shop {
  readonly browser: Browser;
  readonly origin: string;
  /** Opens a page in a fresh profile, closing those of earlier visits; `trouble` fills with console errors, page errors and foreign requests. */
  visit(options?: VisitOptions): Promise<Visit>;
  close(): Promise<void>;
}

export interface VisitOptions {
  readonly width?: number;
  readonly height?: number;
  readonly scheme?: 'light' | 'dark';
  /** Where to begin, as the address after the origin; the single runs unless said. */
  readonly at?: string;
  readonly context?: BrowserContext;
}

export interface Visit {
  readonly page: Page;
  readonly context: BrowserContext;
  readonly trouble: string[];
}

export interface Served {
  readonly origin: string;
  close(): Promise<void>;
}

/** Serves the built page on a free port of this machine. */
export async function servePage(): Promise<Served> {
  const server = await preview({ configFile, preview: { port: 0, host: '127.0.0.1' }, logLevel: 'error' });
  const address = server.httpServer.address();
  if (address === null || typeof address === 'string') throw new Error('the preview server has no port');
  return { origin: `http://localhost:${address.port}`, close: () => server.close() };
}

/** Serves the built page and starts one browser. */
export async function openShop(extraArgs: readonly string[] = []): Promise<Shop> {
  const { origin, close } = await servePage();
  const browser = await chromium.launch({ executablePath: CHROMIUM, args: [...BROWSER_ARGS, ...extraArgs] });
  return {
    browser,
    origin,
    visit: async (options = {}) => {
      // A page of an earlier test would go on cranking its bench beside this one.
      for (const context of browser.contexts()) if (context !== options.context) await context.close();
      return visit(browser, origin, options);
    },
    close: async () => {
      await browser.close();
      await close();
    },
  };
}

async function visit(browser: Browser, origin: string, options: VisitOptions): Promise<Visit> {
  const context =
    options.context ??
    (await browser.newContext({
      viewport: { width: options.width ?? 1280, height: options.height ?? 800 },
      colorScheme: options.scheme ?? 'light',
    }));
  const page = await context.newPage();
  const trouble: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') trouble.push(message.text());
  });
  page.on('pageerror', (error) => trouble.push(String(error)));
  page.on('request', (request) => {
    if (!/^(blob:|data:)/.test(request.url()) && !request.url().startsWith(origin))
      trouble.push(`a request left the machine: ${request.url()}`);
  });
  await page.goto(`${origin}/${options.at ?? '#/runs'}`);
  return { page, context, trouble };
}
