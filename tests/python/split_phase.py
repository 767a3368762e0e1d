"""Two- and three-wire circuits in OpenDSS: every conductor, the neutral too, is a reactor of its own.

The source is two one-phase sources that share the neutral node, which is earthed once. Nodes 1, 2 and 3 of a bus are
leg A, leg B and the neutral. The load currents are current sources of a fixed magnitude: the question of the phasor
method is which voltage is left when those currents are drawn at that angle to the voltage at the load.
"""

import cmath

import opendssdirect as dss


def run(*commands):
    for command in commands:
        dss.Text.Command(command)


def voltages(bus):
    dss.Circuit.SetActiveBus(bus)
    parts = dss.Bus.Voltages()
    return {node: complex(*parts[2 * at : 2 * at + 2]) for at, node in enumerate(dss.Bus.Nodes())}


def current(element):
    """Into the first terminal."""
    dss.Circuit.SetActiveElement(element)
    return complex(*dss.CktElement.Currents()[:2])


def start(leg_voltage):
    stiff = "phases=1 frequency=60 r1=0 x1=1e-7 r0=0 x0=1e-7"
    run(
        "clear",
        f"new circuit.house bus1=bus0.1 bus2=bus0.3 basekv={leg_voltage / 1000} pu=1 angle=0 {stiff}",
        f"new vsource.b bus1=bus0.3 bus2=bus0.2 basekv={leg_voltage / 1000} pu=1 angle=0 {stiff}",
        "new reactor.earth phases=1 bus1=bus0.3 bus2=bus0.0 r=0.001 x=0",
        "set maxiterations=1000 tolerance=1e-12",
    )


def conductor(name, number, node, ohms):
    r, x = ohms
    run(f"new reactor.{name}{number} phases=1 bus1=bus{number - 1}.{node} bus2=bus{number}.{node} r={r:.15g} x={x:.15g}")


def wires(path, open_neutral=False):
    """`path`: for each segment the impedance of the ungrounded conductors and of the neutral."""
    for number, (ungrounded, neutral) in enumerate(path, 1):
        conductor("a", number, 1, ungrounded)
        conductor("b", number, 2, ungrounded)
        if not open_neutral:
            conductor("n", number, 3, neutral)


def draw(leg, number, magnitude, angle):
    """A load of a leg at the end of segment `number`: its current, at an angle in degrees."""
    first, second = (1, 3) if leg == "a" else (3, 2)
    # A source injects at its first terminal, so a load injects at the other one.
    run(f"new isource.{leg}{number} phases=1 bus1=bus{number}.{second} bus2=bus{number}.{first} amps={magnitude:.15g} "
        f"angle={angle:.15g} frequency=60")


def voltage_of_leg(leg, number):
    at = voltages(f"bus{number}")
    return at[1] - at[3] if leg == "a" else at[3] - at[2]


def solve_at_angle(loads, end, lag, leg="a"):
    """Solves with every current lagging the voltage of `leg` at `end` by `lag` degrees; returns that voltage."""
    angle = -lag
    for load, number, magnitude in loads:
        draw(load, number, magnitude, angle)
    for _ in range(100):
        dss.Solution.Solve()
        assert dss.Solution.Converged()
        left = voltage_of_leg(leg, end)
        wanted = cmath.phase(left) * 180 / cmath.pi - lag
        if abs(wanted - angle) < 1e-12:
            break
        angle = wanted
        for load, number, _ in loads:
            run(f"isource.{load}{number}.angle={angle:.15g}")
    return left
