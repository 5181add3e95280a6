# SPDX-License-Identifier: MIT
"""Makes tests/outside/data/flow_gas_pipe.csv: isothermal gas flow along single pipes, integrated with SciPy.

To remake it, from the repository's root: python3 tools/reference/gas_pipe.py
"""
import math
import pathlib

import scipy
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

# gas: gas constant J/(kg K), viscosity Pa s; natural gas and propane near 15 degC, round figures
GASES = {"natural": (475.0, 1.1e-5), "propane": (188.6, 8.0e-6), "air": (287.05, 1.8e-5)}
TEMPERATURE = 288.15
# gas, inlet absolute Pa, kg/s, length m, bore m, roughness m
CASES = [
    ("natural", 103_000, 0.002, 30, 0.0525, 4.6e-5),
    ("natural", 115_100, 0.012, 20, 0.0525, 4.6e-5),
    ("natural", 115_100, 0.004, 25, 0.0351, 4.6e-5),
    ("natural", 115_100, 0.00012, 10, 0.0158, 4.6e-5),
    ("natural", 135_800, 0.03, 60, 0.0779, 4.6e-5),
    ("natural", 239_000, 0.05, 200, 0.0779, 4.6e-5),
    ("natural", 500_000, 0.3, 1000, 0.1023, 4.6e-5),
    ("propane", 115_100, 0.004, 15, 0.0266, 4.6e-5),
    ("propane", 170_000, 0.012, 40, 0.0351, 4.6e-5),
    ("propane", 104_000, 0.0008, 12, 0.0266, 1.5e-6),
    ("air", 105_000, 0.05, 15, 0.1, 1.5e-6),
    ("air", 700_000, 0.25, 300, 0.0779, 4.6e-5),
    ("air", 120_000, 0.0002, 5, 0.02, 1.5e-6),
]


def friction(reynolds, roughness):
    if reynolds <= 2000:
        return 64 / reynolds
    assert reynolds >= 4000, "cases keep out of the transition, where no law holds"
    residual = lambda x: x + 2 * math.log10(roughness / 3.7 + 2.51 * x / reynolds)
    return brentq(residual, 1, 30, xtol=1e-14) ** -2


def outlet(gas, inlet, flow, length, bore, roughness):
    constant, viscosity = GASES[gas]
    flux = flow / (math.pi / 4 * bore**2)
    f = friction(flux * bore / viscosity, roughness / bore)
    zrt = constant * TEMPERATURE

    def slope(_, p):
        # momentum with the gas's own acceleration: dp/dx = -(f G^2 zRT / 2 D p) / (1 - G^2 zRT / p^2)
        return -(f * flux**2 * zrt / (2 * bore * p)) / (1 - flux**2 * zrt / p**2)

    found = solve_ivp(slope, (0, length), [inlet], rtol=1e-11, atol=1e-6)
    assert found.success
    return found.y[0][-1]


def main():
    target = pathlib.Path(__file__).parents[2] / "tests/outside/data/flow_gas_pipe.csv"
    lines = ["gas,zrt J/kg,viscosity Pa s,inlet Pa,flow kg/s,length m,bore m,roughness m,outlet Pa,made"]
    for gas, inlet, flow, length, bore, roughness in CASES:
        constant, viscosity = GASES[gas]
        p2 = outlet(gas, inlet, flow, length, bore, roughness)
        lines.append(f"{gas},{constant * TEMPERATURE:.6f},{viscosity},{inlet},{flow},{length},{bore},{roughness},"
                     f"{p2:.8f},SciPy {scipy.__version__} by tools/reference/gas_pipe.py")
    target.write_text("\n".join(lines) + "\n")


main()
