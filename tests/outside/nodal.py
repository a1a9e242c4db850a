"""Resistance between two nodes of any net of resistors: Kirchhoff's current law, solved by numpy."""

from collections.abc import Iterable
from decimal import Decimal
from fractions import Fraction

import numpy as np

Resistor = tuple[str, str, Decimal | Fraction]


def resistance_between(one: str, other: str, net: Iterable[Resistor]) -> float:
    """One ampere in at `one`, out at `other`; the voltage between them is the resistance in ohms."""
    resistors = list(net)
    nodes = sorted({node for start, end, _ in resistors for node in (start, end)} - {other})
    conductances = np.zeros((len(nodes), len(nodes)))
    for start, end, ohms in resistors:
        for node, far in ((start, end), (end, start)):
            if node == other:
                continue
            conductances[nodes.index(node), nodes.index(node)] += 1 / float(ohms)
            if far != other:
                conductances[nodes.index(node), nodes.index(far)] -= 1 / float(ohms)
    currents = np.array([float(node == one) for node in nodes])
    return float(np.linalg.solve(conductances, currents)[nodes.index(one)])
