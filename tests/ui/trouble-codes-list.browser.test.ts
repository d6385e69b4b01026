import { html } from 'lit';
import { afterEach, describe, expect, test } from 'vitest';
import type { LampLook, LampName } from '../../src/ui/lamp-row.ts';
import '../../src/ui/trouble-codes-list.ts';
import type { ControllerCodes } from '../../src/ui/trouble-codes-list.ts';
import { axeFindings, clearPage, every, mount, one, sideways, textOf } from './mount.ts';
import { CONTROLLERS } from './source-samples.ts';

afterEach(clearPage);

const list = (controllers: readonly ControllerCodes[] = CONTROLLERS) =>
  mount(html`<m-trouble-codes .controllers=${controllers}></m-trouble-codes>`);
const LAMPS = { malfunction: 'off', redStop: 'off', amberWarning: 'off', protect: 'off' } as const;
const withLamps = (part: Partial<Record<LampName, LampLook>>) =>
  list([
    {
      id: '0',
      name: 'Engine',
      address: '00',
      active: { lamps: { ...LAMPS, ...part }, codes: [] },
      previous: null,
    },
  ]);

describe('m-trouble-codes', () => {
  test('shows SPN, FMI, words and count of each code', async () => {
    const codes = every(await list(), '.active li:not(.lamp)').map(textOf);
    expect(codes[0]).toBe(
      'SPN 157 FMI 18 Rail pressure Below normal, moderately severe ' +
        'Low rail pressure: the rail did not reach what the engine asked for. 4 times',
    );
    expect(codes[1]).toContain('SPN 1208 FMI 3 A parameter that Meniscus does not know');
    expect(codes[1]).toContain('not counted');
  });

  // SPN 1208 in the older packings: bytes B8 04 03 8A read as version 1 and 2, ../shared/reference/j1939.md, table of packings.
  test('says what the number could be as well', async () => {
    const [a, b, c] = [0xb8, 0x04, 0x03];
    const first = (a << 11) | (b << 3) | (c >> 5);
    const second = (b << 11) | (a << 3) | (c >> 5);
    const [engine] = CONTROLLERS;
    const code = engine?.active?.codes[1];
    if (!engine?.active || !code) throw new Error('the sample has two codes');
    const element = await list([
      { ...engine, active: { ...engine.active, codes: [{ ...code, otherSpns: [first, second] }] } },
    ]);
    expect(textOf(one(element, '.other'))).toBe(
      'Could also be SPN 376864 or 9664, depending on the controller’s packing. The frame does not say which.',
    );
    expect(one(element, '.other m-icon').getAttribute('shape')).toBe('unsure');
  });

  test('marks the low rail pressure code by shape and words, and no other', async () => {
    const element = await list();
    expect(every(element, 'li.marked')).toHaveLength(1);
    expect(textOf(one(element, 'li.marked .number'))).toBe('157');
    expect(one(element, '.mark m-icon').getAttribute('shape')).toBe('falling');
  });

  test('tells “no code” from “nothing said”', async () => {
    const element = await list();
    const [engine, brakes, cab] = every(element, 'article').map(textOf);
    expect(brakes).toContain('No trouble code is active.');
    expect(cab).toContain('This controller has not said anything about trouble codes yet.');
    expect(cab).not.toContain('No trouble code is active.');
    expect(engine).toContain('Active before Not told. Earlier codes are sent on request only.');
    expect(brakes).toContain('SPN 789 FMI 5 Wheel sensor');
    expect(brakes).toContain('once');
  });

  test('says that earlier codes are none once it was told so', async () => {
    const [, brakes] = CONTROLLERS;
    if (!brakes?.previous) throw new Error('the sample has earlier codes');
    const element = await list([{ ...brakes, previous: { ...brakes.previous, codes: [] } }]);
    expect(textOf(one(element, '.previous'))).toBe('Active before No earlier trouble code is stored.');
  });

  test.each([
    ['malfunction', 'on', 'Malfunction indicator on', 'engine'],
    ['redStop', 'fast flash', 'Red stop flashes fast', 'fail'],
    ['amberWarning', 'slow flash', 'Amber warning flashes slowly', 'marginal'],
    ['protect', 'on', 'Protect on', 'shield'],
  ] as const)('lights the %s lamp when it is %s, by word and shape', async (name, look, words, shape) => {
    const element = await withLamps({ [name]: look });
    expect(every(element, '.lamp').map(textOf)).toEqual([words]);
    expect(one(element, '.lamp m-icon').getAttribute('shape')).toBe(shape);
    expect(await axeFindings(element)).toEqual([]);
  });

  test('does not call a lamp off that is not driven', async () => {
    expect(textOf(one(await withLamps({}), '.lamps'))).toBe('All lamps are off.');
    expect(textOf(one(await withLamps({ protect: 'notAvailable' }), '.lamps'))).toBe(
      'Off: malfunction indicator, red stop, amber warning. Not driven: protect.',
    );
  });

  test('teaches before any controller was heard', async () => {
    const element = await list([]);
    expect(textOf(element)).toContain('No controller has been heard yet.');
    expect(await axeFindings(element)).toEqual([]);
  });

  test('prints six figures on a phone without scrolling sideways, and axe finds nothing', async () => {
    const [engine] = CONTROLLERS;
    const code = engine?.active?.codes[1];
    if (!engine?.active || !code) throw new Error('the sample has two codes');
    const longest = { ...code, spn: 524287, fmi: 31, occurrences: 126 }; // 19 bits, 5 bits, 7 bits: j1939.md, DM1
    const element = await list([
      { ...engine, active: { ...engine.active, codes: [longest] } },
      ...CONTROLLERS,
    ]);
    expect(await sideways(element)).toEqual([]);
    expect(await axeFindings(element)).toEqual([]);
  });
});
