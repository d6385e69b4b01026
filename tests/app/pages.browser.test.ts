import { html } from 'lit';
import { userEvent } from 'vitest/browser';
import { afterEach, describe, expect, test } from 'vitest';
import '../../src/app/pages/runs-page.ts';
import '../../src/app/pages/import-page.ts';
import '../../src/app/pages/settings-page.ts';
import '../../src/app/shell.ts';
import { problem } from '../../src/problems/problem.ts';
import { adoptDocumentStyles } from '../../src/ui/tokens.ts';
import { axeFindings, clearPage, mount, textOf } from '../ui/mount.ts';
import { deep, press, tabTo, until } from './page.ts';
import { fakeServices, run } from './services.ts';

afterEach(() => {
  clearPage();
  location.hash = '';
});

const text = (content: string) => new TextEncoder().encode(content);

describe('runs-page', () => {
  const shown = (services = fakeServices()) => mount(html`<runs-page .services=${services}></runs-page>`);

  test('offers the three ways, and says that there is no run yet, without a fault for axe', async () => {
    const page = await shown();
    await until(() => textOf(page).includes('No run yet'));
    for (const words of ['Try it on the bench', 'Connect a bridge', 'Open a log'])
      expect(textOf(page)).toContain(words);
    expect(await axeFindings(page)).toEqual([]);
  });

  test('starts a run on the bench by keyboard alone', async () => {
    const services = fakeServices();
    const page = await shown(services);
    await until(() => textOf(page).includes('No run yet'));
    await tabTo('Start on the bench');
    await userEvent.keyboard('{Enter}');
    await until(() => services.went.length > 0);
    expect(services.went).toEqual(['run id-1']);
    expect(services.pending.get('id-1')?.kind).toBe('bench');
    expect((await services.runs.get('id-1')).ok).toBe(true);
  });

  test('says why a bridge cannot be connected here, and does nothing when asked all the same', async () => {
    const services = fakeServices();
    const page = await shown(services);
    press(page, 'Serial port');
    expect(services.went).toEqual([]);
    expect(textOf(page)).toContain('cannot reach serial ports');
    expect(textOf(page)).toContain('only listens');
  });

  test('lists the kept runs, newest first, each as a link', async () => {
    const services = fakeServices();
    await services.runs.put(run({ device: 'first.log' }, 'a'));
    await services.runs.put({ ...run({ device: 'second.log' }, 'b'), createdAt: '2026-11-25T09:00:00.000Z' });
    const page = await shown(services);
    await until(() => textOf(page).includes('second.log'));
    expect(textOf(page).indexOf('second.log')).toBeLessThan(textOf(page).indexOf('first.log'));
    expect(deep(page, 'a[href="#/run/a"]')).not.toBeNull();
    expect(await axeFindings(page)).toEqual([]);
  });
});

describe('import-page', () => {
  const shown = async (name: string, content: string | Uint8Array) => {
    const services = fakeServices();
    services.dropped.file = { name, bytes: typeof content === 'string' ? text(content) : content };
    const page = await mount(html`<import-page .services=${services}></import-page>`);
    return { services, page };
  };

  test('asks for a file where none was dropped', async () => {
    const page = await mount(html`<import-page .services=${fakeServices()}></import-page>`);
    expect(textOf(page)).toContain('No log opened');
    expect(await axeFindings(page)).toEqual([]);
  });

  test.each([
    ['commas', 'Time (s),Engine speed (rpm)\n0,0\n0.1,150\n0.2,151\n0.3,152\n'],
    ['semicolons and decimal commas', 'Time (s);Engine speed (rpm)\n0;0\n0,1;150\n0,2;151\n0,3;152\n'],
    [
      'tabs and pressures',
      'Time (s)\tEngine speed (rpm)\tRail pressure (bar)\n0\t0\t1\n0.1\t150\t90\n0.2\t151\t91\n0.3\t152\t91\n',
    ],
  ])('shows how it reads a log with %s, and makes a run of it by keyboard', async (_name, content) => {
    const { services, page } = await shown('speed.csv', content);
    await until(() => textOf(page).includes('Is this right?'));
    expect(textOf(page)).toContain('Engine speed');
    expect(await axeFindings(page)).toEqual([]);
    await tabTo('Use it like this');
    await userEvent.keyboard('{Enter}');
    await until(() => services.went.length > 0);
    expect(services.pending.get('id-1')).toMatchObject({ kind: 'log-file', choice: { wire: 'readings' } });
  });

  test('does not use a log without times before the interval is given', async () => {
    const { services, page } = await shown('speed.csv', 'Engine speed (rpm)\n0\n150\n151\n152\n149\n');
    await until(() => textOf(page).includes('Milliseconds between two rows'));
    press(page, 'Use it like this');
    expect(services.went).toEqual([]);
    const input = deep<HTMLInputElement>(page, 'input[inputmode=decimal]')!;
    await userEvent.fill(input, '100');
    await userEvent.keyboard('{Tab}');
    await until(() => !textOf(page).includes('First:'));
    press(page, 'Use it like this');
    await until(() => services.went.length > 0);
  });

  test.each([
    ['empty.csv', ''],
    ['book.xlsx', Uint8Array.of(0x50, 0x4b, 3, 4, 20, 0, 6, 0, 8, 0)], // zip local file header (APPNOTE 4.3.7)
    ['noise.bin', Uint8Array.from({ length: 4096 }, (_, place) => (place * 7919) % 256)],
  ])('says that %s cannot be used, and what to do', async (name, content) => {
    const { services, page } = await shown(name, content);
    await until(() => textOf(page).includes('cannot be used'));
    expect(textOf(page)).toContain('Choose another file');
    expect(services.went).toEqual([]);
    expect(await axeFindings(page)).toEqual([]);
  });

  test('makes a run of bus text without a question', async () => {
    const { services } = await shown(
      'a.log',
      '(1.000000) can0 0CF00400#FFFFFF0005FFFFFF\n(1.020000) can0 0CF00400#FFFFFF0005FFFFFF\n',
    );
    await until(() => services.went.length > 0);
    expect(services.pending.get('id-1')).toMatchObject({ choice: { wire: 'candump' } });
  });
});

describe('settings-page', () => {
  test('keeps a unit chosen by keyboard, without a fault for axe', async () => {
    const services = fakeServices();
    const page = await mount(html`<settings-page .services=${services}></settings-page>`);
    expect(await axeFindings(page)).toEqual([]);
    await tabTo('Rail pressure');
    await userEvent.keyboard('{ArrowDown}');
    await until(() => services.settings.value.pressureUnit === 'MPa');
    await tabTo('Sounds are on');
    await userEvent.keyboard('{Enter}');
    await until(() => textOf(page).includes('Sounds are off'));
    expect(services.settings.value.sounds).toBe(false);
  });
});

describe('m-app', () => {
  test('shows trouble with what is kept above every page, and takes it back', async () => {
    const services = fakeServices();
    adoptDocumentStyles(document);
    const app = document.createElement('m-app'); // brings its own <main>
    app.services = services;
    document.body.append(app);
    await app.updateComplete;
    services.trouble$.next(problem('storage.unavailable', { detail: 'private' }));
    await until(() => textOf(app).includes('nothing will be kept'));
    expect(await axeFindings(app)).toEqual([]);
    services.trouble$.next(null);
    await until(() => !textOf(app).includes('nothing will be kept'));
    location.hash = '#/nowhere';
    await until(() => textOf(app).includes('leads to no screen'));
  });
});
