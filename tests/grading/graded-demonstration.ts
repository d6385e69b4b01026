/**
 * Worked apart from the code, in exact fractions, with these steps for each row:
 *  line      y0 + (y1 − y0)·(n − n0)/(n1 − n0) between the two points around the speed (shown above the rows of that speed)
 *  vessel    √(marks² + reading²), each half-width / √3 (GUM 4.3.7): 100 mL ±1, ½·1; 250 mL ±2, ½·2; 500 mL ±4, ½·5; 1000 mL ±6,
 *            ½·10; beaker 600 mL 5 %, ½·50; beaker 1000 mL 10 %, ½·100 (check-values.md F)
 *  time      volume / time · √2 · 0.04 s: two cranks, each known to 0.04 s (GUM 5.1.2)
 *  speed     slope of the line at that speed · u(n)
 *  together  root of the sum of squares (GUM 5.1.2)
 *  area      from the normal distribution (JCGM 106:2012, 7.3 and 7.4); called from 95 % on, else too close
 * Rows whose cranks miss 30 s by more than 5 % stand by an override: volume and vessel part are multiplied by 30 / time.
 */
export const GRADED_DEMONSTRATION = `
# speed u(n) mL vessel crank 1 crank 2 | nearest line | u: vessel time speed together | distance probability area word
# failBelow at 100 rpm: 90 + (156 − 90)·0/40 = 90
# passAbove at 100 rpm: 113 + (195 − 113)·0/40 = 113
100  1    70    cylinder-100   15    15    failBelow  90        0.6455   0.1320   1.6500   1.7767   -20       1.0000  fail-low  called
100  1    89    cylinder-100   15    15    failBelow  90        0.6455   0.1678   1.6500   1.7797   -1        0.7129  fail-low  too-close
100  1    90    cylinder-100   15    15    failBelow  90        0.6455   0.1697   1.6500   1.7799   0         0.5000  marginal  too-close
100  1    101   cylinder-250   15    15    failBelow  90        1.2910   0.1904   1.6500   2.1037   11        1.0000  marginal  called
100  1    113   cylinder-250   15    15    passAbove  113       1.2910   0.2131   2.0500   2.4320   0         0.5000  pass      too-close
100  1    130   cylinder-250   15    15    passAbove  113       1.2910   0.2451   2.0500   2.4350   17        1.0000  pass      called
# failBelow at 110 rpm: 90 + (156 − 90)·10/40 = 106.5
# passAbove at 110 rpm: 113 + (195 − 113)·10/40 = 133.5
110  1    100   cylinder-250   15    15    failBelow  106.5     1.2910   0.1886   1.6500   2.1035   -6.5      0.9990  fail-low  called
110  1    118   cylinder-250   15.2  14.9  failBelow  106.5     1.2910   0.2218   1.6500   2.1067   11.5      1.0000  marginal  called
110  1    140   cylinder-250   15    15    passAbove  133.5     1.2910   0.2640   2.0500   2.4370   6.5       0.9962  pass      called
# failBelow at 120 rpm: 90 + (156 − 90)·20/40 = 123
# passAbove at 120 rpm: 113 + (195 − 113)·20/40 = 154
120  0.5  118   cylinder-250   15    15    failBelow  123       1.2910   0.2225   0.8250   1.5482   -5        0.9994  fail-low  called
120  2    118   cylinder-250   15    15    failBelow  123       1.2910   0.2225   3.3000   3.5505   -5        0.9205  fail-low  too-close
120  0.5  150   cylinder-250   15    15    passAbove  154       1.2910   0.2828   1.0250   1.6725   -4        0.9916  marginal  called
120  0.5  158   cylinder-500   15    15    passAbove  154       2.7234   0.2979   1.0250   2.9251   4         0.9143  pass      too-close
# failBelow at 140 rpm: 90 + (156 − 90)·40/40 = 156
# passAbove at 140 rpm: 113 + (195 − 113)·40/40 = 195
140  1    150   cylinder-500   15    15    failBelow  156       2.7234   0.2828   1.6500   3.1967   -6        0.9697  fail-low  called
140  1    175   cylinder-500   15    15    failBelow  156       2.7234   0.3300   1.6500   3.2013   19        1.0000  marginal  called
140  1    205   cylinder-500   15    15    passAbove  195       2.7234   0.3866   2.0500   3.4305   10        0.9982  pass      called
# failBelow at 150 rpm: 156 + (219 − 156)·10/40 = 171.75
# passAbove at 150 rpm: 195 + (274 − 195)·10/40 = 214.75
150  1.5  160   cylinder-500   14.5  14.5  failBelow  171.75    2.7234   0.3121   2.3625   3.6188   -11.75    0.9994  fail-low  called
150  1.5  225   cylinder-500   15.5  15.5  passAbove  214.75    2.7234   0.4106   2.9625   4.0450   10.25     0.9944  pass      called
150  1.5  200   cylinder-250   15    15    passAbove  214.75    1.2910   0.3771   2.9625   3.2535   -14.75    1.0000  marginal  called
# failBelow at 160 rpm: 156 + (219 − 156)·20/40 = 187.5
# passAbove at 160 rpm: 195 + (274 − 195)·20/40 = 234.5
160  1    180   cylinder-500   15    15    failBelow  187.5     2.7234   0.3394   1.5750   3.1643   -7.5      0.9911  fail-low  called
160  1    200   beaker-600     15    15    failBelow  187.5     15.5456  0.3771   1.5750   15.6298  12.5      0.7742  marginal  too-close
160  1    210   cylinder-500   15    15    failBelow  187.5     2.7234   0.3960   1.5750   3.1708   22.5      1.0000  marginal  called
160  1    300   beaker-600     15    15    passAbove  234.5     16.8325  0.5657   1.9750   16.9574  65.5      0.9999  pass      called
# failBelow at 172 rpm: 156 + (219 − 156)·32/40 = 206.4
# passAbove at 172 rpm: 195 + (274 − 195)·32/40 = 258.2
172  1    212   cylinder-500   15    15    failBelow  206.4     2.7234   0.3998   1.5750   3.1713   5.6       0.9613  marginal  called
# failBelow at 180 rpm: 156 + (219 − 156)·40/40 = 219
# passAbove at 180 rpm: 195 + (274 − 195)·40/40 = 274
180  1    219   cylinder-500   15    15    failBelow  219       2.7234   0.4130   1.5750   3.1730   0         0.5000  marginal  too-close
180  1    245   cylinder-500   15    15    failBelow  219       2.7234   0.4620   1.5750   3.1797   26        1.0000  marginal  called
180  1    268   cylinder-500   15    15    passAbove  274       2.7234   0.5053   1.9750   3.4019   -6        0.9611  marginal  called
180  1    284   cylinder-500   15    15    passAbove  274       2.7234   0.5355   1.9750   3.4065   10        0.9983  pass      called
180  3    284   cylinder-500   15    15    passAbove  274       2.7234   0.5355   5.9250   6.5429   10        0.9368  pass      too-close
# failBelow at 200 rpm: 219 + (277 − 219)·20/40 = 248
# passAbove at 200 rpm: 274 + (346 − 274)·20/40 = 310
200  1    235   cylinder-500   15    15    failBelow  248       2.7234   0.4431   1.4500   3.1170   -13       1.0000  fail-low  called
200  1    280   cylinder-500   15    15    passAbove  310       2.7234   0.5280   1.8000   3.3069   -30       1.0000  marginal  called
200  1    320   cylinder-1000  15    15    passAbove  310       4.5092   0.6034   1.8000   4.8926   10        0.9795  pass      called
200  1    250   cylinder-500   12    12    passAbove  310       3.4042   0.7366   1.8000   3.9206   2.5       0.7382  pass      too-close
200  1    250   cylinder-500   18    18    failBelow  248       2.2695   0.3274   1.4500   2.7130   -39.6667  1.0000  fail-low  called
# failBelow at 220 rpm: 219 + (277 − 219)·40/40 = 277
# passAbove at 220 rpm: 274 + (346 − 274)·40/40 = 346
220  1    277   cylinder-500   15    15    failBelow  277       2.7234   0.5223   1.4500   3.1292   0         0.5000  marginal  too-close
220  1    310   cylinder-500   15    15    failBelow  277       2.7234   0.5845   1.4500   3.1402   33        1.0000  marginal  called
220  1    346   cylinder-500   15    15    passAbove  346       2.7234   0.6524   1.8000   3.3290   0         0.5000  pass      too-close
# failBelow at 241 rpm: 277 + (330 − 277)·21/40 = 304.825
# passAbove at 241 rpm: 346 + (413 − 346)·21/40 = 381.175
241  2    290   cylinder-500   15    15    failBelow  304.825   2.7234   0.5468   2.6500   3.8390   -14.825   0.9999  fail-low  called
241  2    340   cylinder-1000  15    15    failBelow  304.825   4.5092   0.6411   2.6500   5.2694   35.175    1.0000  marginal  called
241  2    400   cylinder-1000  15    15    passAbove  381.175   4.5092   0.7542   3.3500   5.6679   18.825    0.9996  pass      called
# failBelow at 260 rpm: 277 + (330 − 277)·40/40 = 330
# passAbove at 260 rpm: 346 + (413 − 346)·40/40 = 413
260  1    330   cylinder-500   15    15    failBelow  330       2.7234   0.6223   1.3250   3.0918   0         0.5000  marginal  too-close
260  1    371   beaker-1000    15    15    failBelow  330       35.9463  0.6996   1.3250   35.9775  41        0.7512  marginal  too-close
260  1    430   cylinder-500   15    15    passAbove  413       2.7234   0.8108   1.6750   3.2984   17        1.0000  pass      called
`;
