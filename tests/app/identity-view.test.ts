import { describe, expect, test } from 'vitest';
import { identityProposals } from '../../src/app/bus-identity.ts';
import { identityCard, identityWanted } from '../../src/app/identity-view.ts';
import type { Identification } from '../../src/j1939/identification.ts';
import { runValues, type RunValues } from '../../src/jobs/run-entries.ts';
import { RunEntry, type IdentityField } from '../../src/jobs/run-entry.ts';

const atIso = '2026-11-25T08:00:00.000Z';
const said = (field: IdentityField, value: string, from: 'bus' | 'typed'): RunEntry => ({
  atIso,
  reason: '',
  kind: 'identity',
  field,
  value,
  from,
  origin: from === 'bus' ? 0 : null,
});
const NOBODY: Identification = { vin: null, component: null, software: null, ecu: null };
const factsOf = (...controllers: readonly (readonly [number, Partial<Identification>])[]) => ({
  identifications: new Map(controllers.map(([origin, part]) => [origin, { ...NOBODY, ...part }])),
});
const card = (values: RunValues, facts = factsOf()) => identityCard(values, identityProposals(facts), facts);
const field = (name: string, entries: ReturnType<typeof card>) =>
  entries.find((entry) => entry.field === name);

describe('the identity card of a run', () => {
  test('shows all fields, empty ones too', () => {
    const entries = card(runValues(null, []));
    expect(entries.map((entry) => entry.field)).toEqual([
      'vin',
      'make',
      'model',
      'engineSerial',
      'unitNumber',
      'software',
    ]);
    for (const entry of entries)
      expect(entry).toMatchObject({ value: '', origin: null, choices: [], note: '' });
  });

  test('says where each value comes from', () => {
    const entries = card(
      runValues(null, [said('serialNumber', 'E1', 'bus'), said('make', 'Bench', 'typed')]),
    );
    expect(field('engineSerial', entries)).toMatchObject({
      value: 'E1',
      origin: 'bus',
      from: '00 (engine 1)',
    });
    expect(field('make', entries)).toMatchObject({ value: 'Bench', origin: 'typed', from: '' });
  });

  test('leaves to the person what controllers do not agree on', () => {
    const facts = factsOf([3, { vin: 'V3' }], [0x10b, { vin: 'V1' }]);
    expect(field('vin', card(runValues(null, []), facts))).toMatchObject({
      value: '',
      choices: [
        { value: 'V3', from: '03 (transmission)' },
        { value: 'V1', from: '0B (brakes), channel 2' },
      ],
    });
  });

  test('says what the bus says where something else was typed', () => {
    const entries = [said('serialNumber', 'E1', 'bus'), said('serialNumber', 'E7', 'typed')];
    expect(field('engineSerial', card(runValues(null, entries)))).toMatchObject({
      value: 'E7',
      note: 'The bus says E1.',
      noteTone: 'doubt',
    });
    const same = [said('serialNumber', 'E1', 'bus'), said('serialNumber', 'E1', 'typed')];
    expect(field('engineSerial', card(runValues(null, same)))).toMatchObject({ note: '' });
  });

  test.each([
    // 49 CFR 565.15(c): 1M8GDM9AXKP042788 is the regulation's own worked example of the check digit X (from memory).
    ['1M8GDM9AXKP042788', 'The check digit fits.', 'good'],
    ['1M8GDM9A1KP042788', 'The check digit does not fit.', 'doubt'],
    ['1M8GDM9AXKP04278', 'A VIN has 17 characters', 'doubt'],
  ])('judges the check digit of %s', (vin, note, noteTone) => {
    const shown = field('vin', card(runValues(null, [said('vin', vin, 'typed')])));
    expect(shown?.note).toContain(note);
    expect(shown?.noteTone).toBe(noteTone);
  });

  test('shows the software of the engine before that of others', () => {
    const facts = factsOf([3, { software: ['G 1'] }], [0, { software: ['E 1', 'E 2'] }]);
    expect(field('software', card(runValues(null, []), facts))).toMatchObject({
      value: 'E 1, E 2',
      origin: 'bus',
      from: '00 (engine 1)',
    });
    expect(field('software', identityCard(runValues(null, []), [], null))).toMatchObject({ value: '' });
  });
});

describe('a change on the card', () => {
  const change = { field: 'engineSerial', value: 'E7', origin: 'typed' } as const;

  test('becomes an entry that the store takes and that holds', () => {
    const entry = { atIso, ...identityWanted(change) } as RunEntry;
    expect(RunEntry.parse(entry)).toEqual(entry);
    const values = runValues(null, [said('serialNumber', 'E1', 'bus'), entry]);
    expect(values.identity.get('serialNumber')?.value).toBe('E7');
  });

  test('that chooses what a controller says is the person’s decision: the bus does not undo it', () => {
    const entry = { atIso, ...identityWanted({ field: 'vin', value: 'V3', origin: 'bus' }) } as RunEntry;
    const values = runValues(null, [entry, said('vin', 'V1', 'bus')]);
    expect(values.identity.get('vin')).toMatchObject({ value: 'V3', from: 'typed' });
    expect(entry.reason).not.toBe('');
  });

  test('of the software asks for nothing: it is not kept', () => {
    expect(identityWanted({ field: 'software', value: 'x', origin: 'typed' })).toBeNull();
  });
});
