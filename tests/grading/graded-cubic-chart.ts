import type { SpeedChart } from '../../src/limits/limit-sheet.ts';
import { CHART } from './example-delivery.ts';

/** An invented chart of monotone cubics that was made for the plain mean of the samples. */
export const CUBIC_CHART: SpeedChart = {
  ...CHART,
  title: 'Invented, bent curves',
  crankSeconds: 7.5,
  speedAverage: 'samples',
  join: 'monotone cubic',
  failBelow: [
    [100, 100],
    [140, 160],
    [180, 190],
    [220, 220],
  ],
  passAbove: [
    [100, 130],
    [140, 210],
    [180, 250],
    [220, 290],
  ],
};

/**
 * Steps as in graded-demonstration.ts, target 15 s, but for the line. Points 40 rpm apart, so Fritsch and Butland's slope inside is the
 * harmonic mean 2ab/(a + b) of the secants a, b, and (3a − b)/2 at an end:
 *  failBelow  secants 1.5, 0.75, 0.75; slopes 1.875, 1, 0.75, 0.75
 *  passAbove  secants 2, 1, 1; slopes 2.5, 4/3, 1, 1
 * Half-way between two points the line is their mean + 40/8·(slope before − slope after), its slope 1.5·secant − (slopes)/4: failBelow at
 * 120 rpm 130 + 5·0.875 = 134.375, slope 2.25 − 0.71875 = 1.53125. Elsewhere with t = (n − n0)/40 the Hermite polynomials: at 130 rpm,
 * t = 0.75, 0.15625·100 + 0.046875·40·1.875 + 0.84375·160 − 0.140625·40·1 = 148.5156.
 */
export const GRADED_CUBIC = `
# speed u(n) mL vessel crank 1 crank 2 | nearest line | u: vessel time speed together | distance probability area word
# failBelow at 100 rpm: 100, slope 1.875
# passAbove at 100 rpm: 130, slope 2.5
100  1    95    cylinder-100   7.5   7.5   failBelow  100       0.6455   0.3583   1.8750   2.0151   -5        0.9935  fail-low  called
100  1    115   cylinder-250   7.5   7.5   failBelow  100       1.2910   0.4337   1.8750   2.3174   15        1.0000  marginal  called
100  1    140   cylinder-250   7.5   7.5   passAbove  130       1.2910   0.5280   2.5000   2.8628   10        0.9998  pass      called
# failBelow at 110 rpm: 118.0469, slope 1.7266
# passAbove at 110 rpm: 154.0625, slope 2.3021
110  1    120   cylinder-250   7.5   7.5   failBelow  118.0469  1.2910   0.4525   1.7266   2.2028   1.9531    0.8124  marginal  too-close
110  1    170   cylinder-250   7.5   7.5   passAbove  154.0625  1.2910   0.6411   2.3021   2.7161   15.9375   1.0000  pass      called
# failBelow at 120 rpm: 134.375, slope 1.5312
# passAbove at 120 rpm: 175.8333, slope 2.0417
120  1    125   cylinder-250   7.5   7.5   failBelow  134.375   1.2910   0.4714   1.5312   2.0576   -9.375    1.0000  fail-low  called
120  1    132   cylinder-250   7.5   7.5   failBelow  134.375   1.2910   0.4978   1.5312   2.0638   -2.375    0.8751  fail-low  too-close
120  1    155   cylinder-250   7.5   7.5   failBelow  134.375   1.2910   0.5845   1.5312   2.0864   20.625    1.0000  marginal  called
120  1    173   cylinder-250   7.5   7.5   passAbove  175.8333  1.2910   0.6524   2.0417   2.5021   -2.8333   0.8713  marginal  too-close
120  1    185   cylinder-250   7.5   7.5   passAbove  175.8333  1.2910   0.6977   2.0417   2.5143   9.1667    0.9999  pass      called
# failBelow at 130 rpm: 148.5156, slope 1.2891
# passAbove at 130 rpm: 194.6875, slope 1.7188
130  1    140   cylinder-250   7.5   7.5   failBelow  148.5156  1.2910   0.5280   1.2891   1.8992   -8.5156   1.0000  fail-low  called
130  1    149   cylinder-250   7.5   7.5   failBelow  148.5156  1.2910   0.5619   1.2891   1.9090   0.4844    0.6002  marginal  too-close
# failBelow at 140 rpm: 160, slope 1
# passAbove at 140 rpm: 210, slope 1.3333
140  1    170   cylinder-250   7.5   7.5   failBelow  160       1.2910   0.6411   1.0000   1.7543   10        1.0000  marginal  called
140  1    210   cylinder-250   7.5   7.5   passAbove  210       1.2910   0.7920   1.3333   2.0178   0         0.5000  pass      too-close
# failBelow at 160 rpm: 176.25, slope 0.6875
# passAbove at 160 rpm: 231.6667, slope 0.9167
160  2    165   cylinder-250   7.5   7.5   failBelow  176.25    1.2910   0.6223   1.3750   1.9861   -11.25    1.0000  fail-low  called
160  2    176   cylinder-250   7.5   7.5   failBelow  176.25    1.2910   0.6637   1.3750   1.9995   -0.25     0.5498  fail-low  too-close
160  2    200   cylinder-250   7.5   7.5   failBelow  176.25    1.2910   0.7542   1.3750   2.0313   23.75     1.0000  marginal  called
160  2    240   cylinder-250   7.5   7.5   passAbove  231.6667  1.2910   0.9051   1.8333   2.4181   8.3333    0.9997  pass      called
# failBelow at 170 rpm: 182.9688, slope 0.6719
# passAbove at 170 rpm: 240.625, slope 0.8958
170  1    176   cylinder-250   6     6     passAbove  240.625   1.6137   1.0371   0.8958   2.1171   -20.625   1.0000  marginal  called
# failBelow at 180 rpm: 190, slope 0.75
# passAbove at 180 rpm: 250, slope 1
180  1    230   cylinder-250   7.5   7.5   passAbove  250       1.2910   0.8674   1.0000   1.8491   -20       1.0000  marginal  called
# failBelow at 200 rpm: 205, slope 0.75
# passAbove at 200 rpm: 270, slope 1
200  1    200   cylinder-250   7.5   7.5   failBelow  205       1.2910   0.7542   0.7500   1.6727   -5        0.9986  fail-low  called
200  1    240   cylinder-250   7.5   7.5   passAbove  270       1.2910   0.9051   1.0000   1.8670   -30       1.0000  marginal  called
200  1    275   cylinder-500   7.5   7.5   passAbove  270       2.7234   1.0371   1.0000   3.0809   5         0.9477  pass      too-close
# failBelow at 220 rpm: 220, slope 0.75
# passAbove at 220 rpm: 290, slope 1
220  1    300   cylinder-500   7.5   7.5   passAbove  290       2.7234   1.1314   1.0000   3.1139   10        0.9993  pass      called
`;
