import { expect, test } from 'vitest';
import { recogniseWire } from '../../src/wire/recognise.ts';
import { ascii } from './decode-all.ts';

// Forms: can-text-formats.md.
test.each([
  ['candump', '(1589326646.631333) can1 18FEF700#FFFFFFFFF200FFFF\n'],
  ['candump', '  can0  18FEF700   [8]  FF FF FF FF F2 00 FF FF\n'],
  ['candump', '# made by hand\r\n (000.000000)  can0  123   [0]\r\n'],
  ['slcan', '00FFFF\rT18FEF7008FFFFFFFFF200FFFF\rt1230\r'],
  ['slcan', 't1230\nt1230\n'],
  ['slcan', `d123F${'00'.repeat(64)}\r`],
  ['reading-lines', '{"engineSpeed":150,"t":1}\n{"engineSpeed":151,"t":21}\n'],
  ['reading-lines', '{"rpm":150}'],
  ['reading-lines', 'ready\r\n{"railPressure_bar":300,"t":1}\r\n{"railPressure_bar":301,"t":2}\r\n'],
  // Cells under a header are a speed log: the person is asked how to read it.
  [null, 't,engineSpeed,railPressure\n1,150,30000\n21,151,30100\n41,152,30100\n'],
  [null, 'rpm;battery\n150;12,1\n151;12,1\n'],
  [null, '{"a":1,"t":2}\n{"a":2,"t":3}\n'],
  [null, ''],
  [null, 'time;speed\n0,1;150\n0,2;151\n'],
  [null, '\x1f\x8b\x08\x00\x00\x00'],
  [null, 'The quick brown fox\rjumps\r'],
])('%s: %j', (protocol, text) => {
  expect(recogniseWire(ascii(text))).toBe(protocol);
});
