"""The bench engine's equations in continuous time, solved by SciPy, to hold the simulator's fixed steps against.

python3 tests/simulators/solve_bench_equations.py > tests/simulators/scipy-values.json

Written anew from the formulas, not from the program: API MPMS 11.1 table 54B, ASTM D341, Barus, Poiseuille,
K = K0 (1 + p / p*), orifice, linear valves. Needs python3 with SciPy; the test reads the table only.
"""

import json
from math import cos, exp, expm1, log10, pi, sin, sqrt

import scipy
from scipy.integrate import solve_ivp

P = {
    "battery": {"emfV": 12.6, "resistanceOhm": 0.0026, "polarisationOhm": 0.0004, "polarisationS": 3,
                "temperatureC": 20, "idleLoadA": 12},
    "starter": {"cableOhm": 0.001, "windingOhm": 0.0042, "constantVS": 0.4, "efficiency": 0.9, "noLoadA": 90},
    "crankshaft": {"cylinders": 6, "inertiaKgM2": 3.5, "frictionNm": 146, "viscousNmS": 1.5, "compressionNm": 260,
                   "leakDownRadS": 6, "leakDownS": 0.4, "compressionLossNm": 35, "oilTemperatureC": 10},
    "tank": {"volumeM3": 0.4, "filledShare": 0.62, "pickUpShare": 0.02},
    "suction": {"linePaS": 3e8, "filterPaS": 5e7, "airShare": 0.02},
    "supply": {"displacementM3": 6e-6, "slipM3SPa": 3e-11, "reliefPa": 1.2e6, "reliefM3SPa": 2.2e-9,
               "backLeakM3SPa": 8e-12, "filterPaS": 4e8, "complianceM3Pa": 5e-11, "airVolumeM3": 2e-4},
    "metering": {"fullM3SRootPa": 9e-8, "mostOpen": 1, "stickBand": 0, "lagS": 0.05, "crackM3SPa": 1e-12},
    "pump": {"displacementM3": 4.35e-6, "elements": [1, 1], "strokesPerTurn": 3, "halfFillPa": 25000,
             "deadRatio": 0.8, "gap": {"diameterM": 0.008, "clearanceM": 5e-6, "lengthM": 0.01},
             "lubricationM3SPa": 4.8e-12, "checkLeakM3SPa": 2.5e-14},
    "rail": {"volumeM3": 1e-4, "stiffness": {"bulkModulusPa": 1.2e9, "stiffeningPa": 1e8},
             "relief": {"crackingPa": 195e6, "slopeM3SPa": 1e-11, "leakM3SPa": 2e-15},
             "sensorGain": 1, "sensorOffsetPa": 0, "sensorNoisePa": 0},
    "injectors": {"leakM3SPa": 8e-15, "controlM3": 4e-8},
    "relief": {"crackingPa": 80e6, "slopeM3SPa": 8e-12},
    "fuelTemperatureC": 30,
    "pumpHeatCapacityJK": 8000,
    "pumpCoolingWK": 6,
}


def density(t):
    a = 594.5418 / 832**2
    return 832 * exp(-a * (t - 15) * (1 + 0.8 * a * (t - 15)))


def viscosity(t):
    nu = 10 ** (10 ** (10.0629386 - 4.134075 * log10(t + 273.15))) - 0.7
    return nu * 1e-6 * density(t)


def pressure_of(mass, t):
    s = P["rail"]["stiffness"]
    k = s["bulkModulusPa"] * (1 - 0.005 * (t - 20))
    ratio = mass / (P["rail"]["volumeM3"] * density(t))
    return s["stiffeningPa"] * (ratio ** (k / s["stiffeningPa"]) - 1) if ratio > 1 else 0.0


def mass_at(p, t):
    s = P["rail"]["stiffness"]
    k = s["bulkModulusPa"] * (1 - 0.005 * (t - 20))
    return P["rail"]["volumeM3"] * density(t) * (1 + p / s["stiffeningPa"]) ** (s["stiffeningPa"] / k)


def fuel_rates(time, y, speed, opening, burnt, test_valve, running):
    """y: gallery kg, suction Pa, rail kg, temperature, delivery kg, drawn kg, pump return kg."""
    gallery, suction, rail, t, _, _, _ = y
    rho = density(t)
    sup, pu, me = P["supply"], P["pump"], P["metering"]
    pg = gallery / (sup["complianceM3Pa"] * rho)
    pr = pressure_of(rail, t)
    thick = viscosity(P["fuelTemperatureC"]) / viscosity(20)
    # high-pressure pump at this cam angle
    fill = 0.0
    if pg > 0 and speed > 0:
        strokes = pu["displacementM3"] * speed / (2 * pi)
        by_pressure = pg / (pg + pu["halfFillPa"])
        asked = strokes * by_pressure / (opening * me["fullM3SRootPa"] * sqrt(pg))
        s = P["rail"]["stiffness"]
        squeeze = pu["deadRatio"] * pr / (s["bulkModulusPa"] * (1 + pr / s["stiffeningPa"]))
        air = P["suction"]["airShare"]
        fill = max(0.0, by_pressure / (1 + asked**4) ** 0.25 * (1 - air) ** 2 - squeeze)
    gap = pu["gap"]
    barus = 1.1e8
    leak = pi * gap["diameterM"] * gap["clearanceM"] ** 3 * (-barus * expm1(-pr / barus))
    leak /= 12 * viscosity(t) * gap["lengthM"]
    pushed = leaked = 0.0
    stroke = pu["displacementM3"] / (2 * pu["strokesPerTurn"])
    for element in range(2):
        cam = (pu["strokesPerTurn"] * speed * time + element * pi) % (2 * pi)
        rising = cam < pi and 0.5 * (1 - cos(cam)) > 1 - fill
        flow = stroke * 0.5 * sin(cam) * pu["strokesPerTurn"] * speed if rising else 0.0
        pushed += flow
        leaked += min(flow, leak)
    # low-pressure side: between pump and filter nothing is stored
    moved = sup["displacementM3"] * speed / (2 * pi) / (1 + (suction / 7e4) ** 4) * (1 - P["suction"]["airShare"])
    g, slip = 1 / (sup["filterPaS"] * thick), sup["slipM3SPa"] / thick
    before = (moved + g * pg) / (slip + g)
    if before > sup["reliefPa"]:
        before = (moved + sup["reliefM3SPa"] * sup["reliefPa"] + g * pg) / (slip + sup["reliefM3SPa"] + g)
    into = max(g * (before - pg), -sup["backLeakM3SPa"] * pg)
    surplus = max(0.0, sup["reliefM3SPa"] * (before - sup["reliefPa"]))
    lubrication = pu["lubricationM3SPa"] / thick * pg
    crack = me["crackM3SPa"] * pg
    drawn = max(0.0, into) + surplus
    pull = (P["suction"]["linePaS"] + P["suction"]["filterPaS"]) * thick * drawn
    # rail
    delivery = P["relief"]["slopeM3SPa"] * max(0.0, pr - P["relief"]["crackingPa"]) if test_valve else 0.0
    check = pu["checkLeakM3SPa"] * pr
    injectors = 0.0 if test_valve else P["injectors"]["leakM3SPa"] * pr
    if running:
        injectors += P["injectors"]["controlM3"] * speed / (2 * pi)
    r = P["rail"]["relief"]
    relief = r["leakM3SPa"] * pr + r["slopeM3SPa"] * max(0.0, pr - r["crackingPa"])
    back = leaked + check + lubrication + crack
    heat = pr * (leaked + check)
    cooling = P["pumpCoolingWK"] + back * rho * 2000
    return [
        (into - lubrication - crack - pushed) * rho,
        (pull - suction) / 0.05,
        (pushed - leaked - delivery - check - injectors - relief) * rho - burnt,
        (heat - cooling * (t - P["fuelTemperatureC"])) / P["pumpHeatCapacityJK"],
        delivery * rho,
        drawn * rho,
        back * rho,
    ]


def fuel_case(seconds, rail_pa=0.0, **drive):
    t0 = P["fuelTemperatureC"]
    start = [0, 0, mass_at(rail_pa, t0), t0, 0, 0, 0]
    whole = solve_ivp(lambda t, y: fuel_rates(t, y, **drive), (0, seconds[-1]), start, method="LSODA",
                      t_eval=seconds, rtol=1e-8, atol=[1e-10, 1e-3, 1e-10, 1e-8, 1e-10, 1e-10, 1e-10],
                      max_step=2e-4 if drive["speed"] > 0 else 0.1)
    rows = []
    for t, y in zip(whole.t, whole.y.T):
        rows.append({"seconds": t, "galleryPa": y[0] / (P["supply"]["complianceM3Pa"] * density(y[3])),
                     "suctionPa": y[1], "railPa": pressure_of(y[2], y[3]), "temperatureC": y[3],
                     "deliveryKg": y[4], "drawnKg": y[5], "pumpReturnKg": y[6]})
    return {"drive": {k: v for k, v in drive.items()}, "railPa": rail_pa, "rows": rows}


def cranking_rates(_, y):
    """y: angle, speed, polarisation V, held compression."""
    angle, speed, polarisation, held = y
    b, st, sh = P["battery"], P["starter"], P["crankshaft"]
    loop = b["resistanceOhm"] + st["cableOhm"] + st["windingOhm"]
    emf = b["emfV"] - polarisation - b["idleLoadA"] * b["resistanceOhm"]
    driving = (emf - st["constantVS"] * speed) / loop
    current = max(st["noLoadA"], driving)
    torque = st["constantVS"] * st["efficiency"] * max(0.0, driving - st["noLoadA"])
    thick = 1 + 0.012 * (20 - sh["oilTemperatureC"])
    friction = thick * (sh["frictionNm"] * (0.4 + 0.6 * speed / (speed + 3)) + sh["viscousNmS"] * speed)
    hump = sh["cylinders"] / 2 * angle
    compression = held * sh["compressionNm"] * (sin(hump) + 0.35 * sin(2 * hump))
    aim = speed / (speed + sh["leakDownRadS"])
    lag = 1e-4 if aim > held else sh["leakDownS"]
    return [
        speed,
        (torque - friction - compression - held * sh["compressionLossNm"]) / sh["inertiaKgM2"],
        (current * b["polarisationOhm"] - polarisation) / b["polarisationS"],
        (aim - held) / lag,
    ]


def cranking_case(seconds):
    whole = solve_ivp(cranking_rates, (0, seconds[-1]), [0, 0, 0, 0], method="Radau", t_eval=seconds,
                      rtol=1e-9, atol=1e-10, max_step=2e-3)
    return [{"seconds": t, "angleRad": y[0], "speedRadS": y[1], "polarisationV": y[2]}
            for t, y in zip(whole.t, whole.y.T)]


print(json.dumps({
    "made by": "python3 tests/simulators/solve_bench_equations.py > tests/simulators/scipy-values.json",
    "solver": "scipy.integrate.solve_ivp, SciPy " + scipy.__version__,
    "parameters": P,
    "cranked with the test valve": fuel_case([0.25, 0.5, 1, 2, 4, 8], speed=18.85, opening=1, burnt=0,
                                             test_valve=True, running=False),
    "running at idle": fuel_case([0.25, 0.5, 1, 2, 4, 8], rail_pa=40e6, speed=73.3, opening=0.06, burnt=0.0009,
                                 test_valve=False, running=True),
    "standing": fuel_case([1, 2, 4, 8, 16], rail_pa=60e6, speed=0, opening=0, burnt=0, test_valve=False,
                          running=False),
    "starter": cranking_case([0.1, 0.2, 0.3, 0.5, 0.75, 1, 1.5, 2, 4]),
}, indent=2, default=float))
