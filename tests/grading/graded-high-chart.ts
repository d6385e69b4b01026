import type { SpeedChart } from '../../src/limits/limit-sheet.ts';
import { CHART } from './example-delivery.ts';

/** An invented chart with an upper end: above failAbove the pump delivers more than it should. */
export const HIGH_CHART: SpeedChart = {
  ...CHART,
  title: 'Invented, with an upper end',
  crankSeconds: 10,
  failBelow: [
    [120, 60],
    [160, 100],
    [240, 140],
  ],
  passAbove: [
    [120, 80],
    [200, 160],
    [240, 180],
  ],
  failAbove: [
    [120, 160],
    [200, 240],
    [240, 300],
  ],
};

/** Steps as in graded-demonstration.ts, target 20 s. At a corner the steeper side gives the slope. */
export const GRADED_HIGH = `
# speed u(n) mL vessel crank 1 crank 2 | nearest line | u: vessel time speed together | distance probability area word
# failBelow at 120 rpm: 60 + (100 − 60)·0/40 = 60
# passAbove at 120 rpm: 80 + (160 − 80)·0/80 = 80
# failAbove at 120 rpm: 160 + (240 − 160)·0/80 = 160
120  0.5  52    cylinder-100   10    10    failBelow  60        0.6455   0.1471   0.5000   0.8296   -8        1.0000  fail-low  called
120  0.5  70    cylinder-100   10    10    failBelow  60        0.6455   0.1980   0.5000   0.8402   10        1.0000  marginal  called
120  0.5  79    cylinder-100   10    10    passAbove  80        0.6455   0.2234   0.5000   0.8465   -1        0.8813  marginal  too-close
120  0.5  120   cylinder-250   10    10    passAbove  80        1.2910   0.3394   0.5000   1.4254   40        1.0000  pass      called
120  0.5  160   cylinder-250   10    10    failAbove  160       1.2910   0.4525   0.5000   1.4565   0         0.5000  pass      too-close
120  0.5  170   cylinder-250   10    10    failAbove  160       1.2910   0.4808   0.5000   1.4656   10        1.0000  fail-high called
# failBelow at 140 rpm: 60 + (100 − 60)·20/40 = 80
# passAbove at 140 rpm: 80 + (160 − 80)·20/80 = 100
# failAbove at 140 rpm: 160 + (240 − 160)·20/80 = 180
140  1    75    cylinder-250   10    10    failBelow  80        1.2910   0.2121   1.0000   1.6467   -5        0.9988  fail-low  called
140  1    90    cylinder-250   10    10    failBelow  80        1.2910   0.2546   1.0000   1.6527   10        1.0000  marginal  called
140  1    140   cylinder-250   10.4  10.4  passAbove  100       1.2910   0.3807   1.0000   1.6768   40        1.0000  pass      called
140  1    176   cylinder-250   10    10    failAbove  180       1.2910   0.4978   1.0000   1.7072   -4        0.9904  pass      called
140  1    190   cylinder-250   10    10    failAbove  180       1.2910   0.5374   1.0000   1.7191   10        1.0000  fail-high called
# failBelow at 160 rpm: 60 + (100 − 60)·40/40 = 100
# passAbove at 160 rpm: 80 + (160 − 80)·40/80 = 120
# failAbove at 160 rpm: 160 + (240 − 160)·40/80 = 200
160  1    100   cylinder-250   10    10    failBelow  100       1.2910   0.2828   1.0000   1.6573   0         0.5000  marginal  too-close
160  1    110   cylinder-250   10    10    failBelow  100       1.2910   0.3111   1.0000   1.6624   10        1.0000  marginal  called
# failBelow at 180 rpm: 100 + (140 − 100)·20/80 = 110
# passAbove at 180 rpm: 80 + (160 − 80)·60/80 = 140
# failAbove at 180 rpm: 160 + (240 − 160)·60/80 = 220
180  1    100   cylinder-250   10    10    failBelow  110       1.2910   0.2828   0.5000   1.4130   -10       1.0000  fail-low  called
180  1    125   cylinder-250   10    10    failBelow  110       1.2910   0.3536   0.5000   1.4289   15        1.0000  marginal  called
180  1    180   cylinder-250   8     8     failAbove  220       1.6137   0.7955   1.0000   2.0584   5         0.9924  fail-high called
180  1    180   cylinder-250   10    10    passAbove  140       1.2910   0.5091   1.0000   1.7105   40        1.0000  pass      called
180  1    245   cylinder-250   10    10    failAbove  220       1.2910   0.6930   1.0000   1.7739   25        1.0000  fail-high called
# failBelow at 200 rpm: 100 + (140 − 100)·40/80 = 120
# passAbove at 200 rpm: 80 + (160 − 80)·80/80 = 160
# failAbove at 200 rpm: 160 + (240 − 160)·80/80 = 240
200  1    250   cylinder-500   10    10    failAbove  240       2.7234   0.7071   1.5000   3.1885   10        0.9991  fail-high called
# failBelow at 220 rpm: 100 + (140 − 100)·60/80 = 130
# passAbove at 220 rpm: 160 + (180 − 160)·20/40 = 170
# failAbove at 220 rpm: 240 + (300 − 240)·20/40 = 270
220  1    140   cylinder-250   10    10    failBelow  130       1.2910   0.3960   0.5000   1.4400   10        1.0000  marginal  called
220  1    165   cylinder-500   10    10    passAbove  170       2.7234   0.4667   0.5000   2.8079   -5        0.9625  marginal  called
220  1    220   cylinder-500   10    10    passAbove  170       2.7234   0.6223   0.5000   2.8379   50        1.0000  pass      called
220  1    285   cylinder-500   10    10    failAbove  270       2.7234   0.8061   1.5000   3.2119   15        1.0000  fail-high called
# failBelow at 240 rpm: 100 + (140 − 100)·80/80 = 140
# passAbove at 240 rpm: 160 + (180 − 160)·40/40 = 180
# failAbove at 240 rpm: 240 + (300 − 240)·40/40 = 300
240  1    310   cylinder-500   10    10    failAbove  300       2.7234   0.8768   1.5000   3.2304   10        0.9990  fail-high called
`;
