import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { identityEntries, identityProposals, type IdentityProposal } from '../../src/app/bus-identity.ts';
import type { ComponentIdentification, Identification } from '../../src/j1939/identification.ts';
import { runValues } from '../../src/jobs/run-entries.ts';
import { IDENTITY_FIELDS, type IdentityField, type RunEntry } from '../../src/jobs/run-entry.ts';

const atIso = '2026-11-25T08:00:00.000Z';
const ENGINE = 0x00;
const ENGINE_2 = 0x01;
const TRANSMISSION = 0x03;
const BRAKES = 0x0b;
const CHANNEL_1 = 256;

const component = (serialNumber: string | null, more: Partial<ComponentIdentification> = {}) => ({
  make: null,
  model: null,
  serialNumber,
  unitNumber: null,
  further: [],
  ...more,
});
const says = (part: Partial<Identification>): Identification => ({
  vin: null,
  component: null,
  software: null,
  ecu: null,
  ...part,
});
const facts = (...controllers: readonly (readonly [number, Partial<Identification>])[]) => ({
  identifications: new Map(controllers.map(([origin, part]) => [origin, says(part)])),
});
const of = (proposals: readonly IdentityProposal[], field: IdentityField) =>
  proposals.find((proposal) => proposal.field === field);

describe('what the bus says of the vehicle', () => {
  test('is nothing while nobody has said anything', () => {
    expect(identityProposals(facts())).toEqual([]);
    expect(identityProposals(facts([ENGINE, {}], [BRAKES, { software: ['x'] }]))).toEqual([]);
  });

  test('is taken from the engine, field by field', () => {
    const own = component('E1', { make: 'Bench', model: 'B6', unitNumber: '12' });
    const proposals = identityProposals(facts([ENGINE, { vin: 'ZZZTRKAA2RT000001', component: own }]));
    expect(proposals.map(({ field, taken }) => [field, taken?.value, taken?.origin])).toEqual([
      ['vin', 'ZZZTRKAA2RT000001', 0],
      ['make', 'Bench', 0],
      ['model', 'B6', 0],
      ['serialNumber', 'E1', 0],
      ['unitNumber', '12', 0],
    ]);
  });

  test('never takes the serial number of brakes or transmission for the engine’s', () => {
    const proposals = identityProposals(
      facts(
        [TRANSMISSION, { component: component('T9', { make: 'Gears' }) }],
        [BRAKES, { component: component('A5') }],
      ),
    );
    expect(proposals).toEqual([]);
  });

  test('takes the vehicle’s VIN from anybody, the engine before all others', () => {
    expect(of(identityProposals(facts([BRAKES, { vin: 'V1' }])), 'vin')?.taken).toEqual({
      value: 'V1',
      origin: BRAKES,
    });
    const both = identityProposals(facts([BRAKES, { vin: 'V1' }], [ENGINE, { vin: 'V2' }]));
    expect(of(both, 'vin')).toEqual({
      field: 'vin',
      taken: { value: 'V2', origin: ENGINE },
      said: [
        { value: 'V2', origin: ENGINE },
        { value: 'V1', origin: BRAKES },
      ],
    });
  });

  test('takes nothing where others than the engine differ, and lists what they say', () => {
    const vin = of(identityProposals(facts([TRANSMISSION, { vin: 'V3' }], [BRAKES, { vin: 'V1' }])), 'vin');
    expect(vin?.taken).toBeNull();
    expect(vin?.said.map(({ value }) => value)).toEqual(['V3', 'V1']);
  });

  test('is one value where several say the same, also with spaces around it', () => {
    const vin = of(identityProposals(facts([BRAKES, { vin: ' V1 ' }], [TRANSMISSION, { vin: 'V1' }])), 'vin');
    expect(vin?.said).toEqual([{ value: 'V1', origin: TRANSMISSION }]);
    expect(vin?.taken?.value).toBe('V1');
  });

  test('prefers engine 1 to engine 2, on whatever channel, and keeps the other in the list', () => {
    const proposals = identityProposals(
      facts([ENGINE_2, { component: component('E2') }], [CHANNEL_1 + ENGINE, { component: component('E1') }]),
    );
    expect(of(proposals, 'serialNumber')).toEqual({
      field: 'serialNumber',
      taken: { value: 'E1', origin: 256 },
      said: [
        { value: 'E1', origin: 256 },
        { value: 'E2', origin: 1 },
      ],
    });
  });

  test('is not taken where characters of it could not be read, but is shown', () => {
    const proposals = identityProposals(facts([ENGINE, { vin: 'ZZ\ufffd' }]));
    expect(proposals).toEqual([{ field: 'vin', taken: null, said: [{ value: 'ZZ\ufffd', origin: 0 }] }]);
    const second = identityProposals(facts([ENGINE, { vin: 'ZZ\ufffd' }], [BRAKES, { vin: 'ZZ1' }]));
    expect(of(second, 'vin')?.taken).toEqual({ value: 'ZZ1', origin: BRAKES });
  });

  test('holds the engine’s hours where the engine gives them', () => {
    const hours = (value: number | null, origin: number) => identityProposals(facts(), { value, origin });
    expect(hours(1234.55, ENGINE)).toMatchObject([{ field: 'engineHours', taken: { value: '1234.55' } }]);
    expect(hours(0.1 + 0.2, ENGINE)[0]?.taken?.value).toBe('0.3');
    expect(hours(1234.55, BRAKES)).toEqual([]);
    expect(hours(null, ENGINE)).toEqual([]);
    expect(hours(5, -1)).toEqual([]); // a speed log has no addresses
  });
});

describe('the entries that a run takes over', () => {
  const proposals = identityProposals(facts([ENGINE, { vin: 'V1', component: component('E1') }]), {
    value: 10,
    origin: ENGINE,
  });

  test('say what, from whom and when', () => {
    expect(identityEntries([], proposals, atIso)).toEqual([
      { atIso, reason: '', kind: 'identity', field: 'vin', value: 'V1', from: 'bus', origin: 0 },
      { atIso, reason: '', kind: 'identity', field: 'serialNumber', value: 'E1', from: 'bus', origin: 0 },
      { atIso, reason: '', kind: 'identity', field: 'engineHours', value: '10', from: 'bus', origin: 0 },
    ]);
  });

  test('are made once, though the bus repeats itself and the hours count on', () => {
    const made = identityEntries([], proposals, atIso);
    const later = identityProposals(facts([ENGINE, { vin: 'V1', component: component('E1') }]), {
      value: 10.05,
      origin: ENGINE,
    });
    expect(identityEntries(made, later, atIso)).toEqual([]);
  });

  test('are made again for another value, and not for one that was entered before', () => {
    const made = identityEntries([], proposals, atIso);
    const swapped = identityProposals(facts([ENGINE, { vin: 'V2' }]));
    const again = identityEntries(made, swapped, atIso);
    expect(again.map((entry) => entry.kind === 'identity' && entry.value)).toEqual(['V2']);
    expect(identityEntries([...made, ...again], proposals, atIso)).toEqual([]);
  });

  test('are none for what the controllers do not agree on', () => {
    const open = identityProposals(facts([TRANSMISSION, { vin: 'V3' }], [BRAKES, { vin: 'V1' }]));
    expect(identityEntries([], open, atIso)).toEqual([]);
  });

  test('leave what was typed as it is, before and after', () => {
    const typed: RunEntry = {
      atIso,
      reason: '',
      kind: 'identity',
      field: 'serialNumber',
      value: 'E7',
      from: 'typed',
      origin: null,
    };
    for (const entries of [
      [typed, ...identityEntries([typed], proposals, atIso)],
      [...identityEntries([], proposals, atIso), typed],
    ]) {
      const { identity, heardIdentity } = runValues(null, entries);
      expect(identity.get('serialNumber')?.value).toBe('E7');
      expect(heardIdentity.get('serialNumber')?.value).toBe('E1');
      expect(identity.get('vin')?.value).toBe('V1');
    }
  });

  test('are bounded whatever the bus says, and settle at once', () => {
    const text = fc.constantFrom('A', 'B', '', ' ', '\ufffd');
    const controller = fc.record({
      origin: fc.constantFrom(ENGINE, ENGINE_2, BRAKES, CHANNEL_1),
      vin: fc.option(text),
      serial: fc.option(text),
    });
    fc.assert(
      fc.property(fc.array(fc.array(controller, { maxLength: 4 }), { maxLength: 12 }), (looks) => {
        let entries: readonly RunEntry[] = [];
        for (const look of looks) {
          const heard = identityProposals(
            facts(
              ...look.map(
                ({ origin, vin, serial }) => [origin, { vin, component: component(serial) }] as const,
              ),
            ),
          );
          entries = [...entries, ...identityEntries(entries, heard, atIso)];
          expect(identityEntries(entries, heard, atIso)).toEqual([]);
        }
        // Two readable values from four origins in two fields.
        expect(entries.length).toBeLessThanOrEqual(16);
        expect(entries.every((entry) => entry.kind === 'identity' && entry.value.trim() !== '')).toBe(true);
      }),
    );
  });

  test('know every field that a run has', () => {
    const all = identityProposals(
      facts([ENGINE, { vin: 'a', component: component('b', { make: 'c', model: 'd', unitNumber: 'e' }) }]),
      { value: 1, origin: ENGINE },
    );
    expect(new Set(all.map(({ field }) => field))).toEqual(new Set(IDENTITY_FIELDS));
  });
});
