import { describe, expect, test } from 'vitest';
import { DEFECT_KINDS } from '../../simulators/engine/defects.ts';
import { SOUND_ENGINE } from '../../simulators/engine/engine-parameters.ts';
import { PARTS_OF, type Part } from '../../simulators/engine/parts.ts';
import { modelConstants } from '../../src/app/model-constants.ts';
import { modelParts } from '../../src/app/model-parts.ts';
import { MODEL_PART_IDS, MODEL_PLACE, type ModelPartId } from '../../src/ui/model-layout.ts';

const PARTS = modelParts();
const part = (id: ModelPartId) => PARTS.find((each) => each.id === id)!;
const shown = (id: ModelPartId, name: string) => {
  const found = part(id).constants.find((each) => each.name === name);
  return found && `${found.value} ${found.unit}`;
};

/** Where on the drawing a part that can be replaced at the bench stands. */
const DRAWN: Readonly<Record<Part, readonly ModelPartId[]>> = {
  'suction line': ['suction line'],
  'suction filter': ['suction filter'],
  'supply pump': ['supply pump'],
  'pressure filter': ['pressure filter'],
  'metering valve': ['metering valve'],
  'high-pressure pump': ['pumping elements', 'outlet check valves'],
  'rail sensor': ['rail sensor'],
  'relief valve': ['relief valve'],
  injectors: ['injectors'],
  battery: ['battery'],
  starter: ['starter', 'crankshaft'], // the drag of the engine goes with what turns it
  bridge: ['bridge'],
};

describe('the parts of the bench engine', () => {
  test('every part of the drawing has its own name, two or three sentences, constants, and a place of its own', () => {
    expect(PARTS.map(({ id }) => id)).toEqual(MODEL_PART_IDS);
    expect(new Set(PARTS.map(({ name }) => name)).size).toBe(MODEL_PART_IDS.length);
    expect(new Set(Object.values(MODEL_PLACE)).size).toBe(MODEL_PART_IDS.length);
    for (const { id, what, constants } of PARTS) {
      const sentences = what.split(/[.:] /).length;
      expect(sentences, id).toBeGreaterThanOrEqual(2);
      expect(sentences, id).toBeLessThanOrEqual(4);
      expect(constants.length, id).toBeGreaterThan(0);
      expect(new Set(constants.map(({ name }) => name)).size, id).toBe(constants.length);
      for (const { name, value } of constants) expect(value, `${id}: ${name}`).toMatch(/^[\d,.]+$/);
    }
  });

  test.each(DEFECT_KINDS)('%s stands at a part that carries it, with what it changes there', (kind) => {
    const at = PARTS.filter(({ defects }) => defects.some((each) => each.kind === kind));
    const carrying = PARTS_OF[kind].flatMap((each) => DRAWN[each]);
    expect(at.length).toBeGreaterThan(0);
    for (const { id, defects } of at) {
      expect(carrying).toContain(id);
      for (const { changes, words } of defects) {
        expect(words).not.toBe('');
        for (const { from, to } of changes) expect(to).not.toBe(from);
      }
    }
  });

  test('a clogged filter stands at both filters, and tank, rail and vessel carry no defect', () => {
    const at = PARTS.filter(({ defects }) => defects.some(({ kind }) => kind === 'clogged filter'));
    expect(at.map(({ id }) => id)).toEqual(['suction filter', 'pressure filter']);
    for (const id of ['tank', 'rail', 'vessel'] as const) expect(part(id).defects).toEqual([]);
  });

  test('constants are those of the simulator in other units, worked by hand', () => {
    // 1 L/min = 1/60000 m3/s; 5e7 Pa s/m3 / 60000 = 833.3 Pa
    expect(SOUND_ENGINE.suction.filterPaS).toBe(5e7);
    expect(shown('suction filter', 'Pull at 1 L/min')).toBe('0.833 kPa');
    // 8e-15 m3/(s Pa) * 1e8 Pa = 8e-7 m3/s = 0.8 mL/s = 48 mL/min
    expect(SOUND_ENGINE.injectors.leakM3SPa).toBe(8e-15);
    expect(shown('injectors', 'Leak at rest, all together, at 100 MPa')).toBe('48 mL/min');
    // 220 rad/s * 60 / 6.28319 = 2100.8 rpm, three figures
    expect(SOUND_ENGINE.firing.highIdleRadS).toBe(220);
    expect(shown('combustion', 'High idle')).toBe('2,100 rpm');
    // 9e-8 m3/(s sqrt(Pa)) * sqrt(1e6 Pa) = 9e-5 m3/s = 5.4 L/min
    expect(SOUND_ENGINE.metering.fullM3SRootPa).toBe(9e-8);
    expect(shown('metering valve', 'Lets through when open, at 1,000 kPa')).toBe('5.4 L/min');
    // 195e6 Pa = 195 MPa
    expect(shown('relief valve', 'Opens at')).toBe('195 MPa');
  });

  test('constants follow the engine that is given', () => {
    const worn = { ...SOUND_ENGINE, vesselCapacityM3: 1e-3 };
    expect(modelConstants('vessel', worn)[0]).toEqual({ name: 'Holds', value: '1,000', unit: 'mL' });
  });
});
