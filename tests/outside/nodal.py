"""Resistance between two nodes of any net of resistors, solved by hand in exact fractions (Kirchhoff's current law)."""

from collections.abc import Iterable
from fractions import Fraction

Resistor = tuple[str, str, Fraction]


def resistance_between(one: str, other: str, net: Iterable[Resistor]) -> Fraction:
    """One ampere in at `one`, out at `other`; the voltage between them is the resistance."""
    resistors = list(net)
    nodes = sorted({node for start, end, _ in resistors for node in (start, end)} - {other})
    rows = [[*_currents_at(node, nodes, resistors), Fraction(node == one)] for node in nodes]
    return _solved(rows)[nodes.index(one)]


def _currents_at(node: str, nodes: list[str], resistors: list[Resistor]) -> list[Fraction]:
    row = [Fraction(0)] * len(nodes)
    for start, end, ohms in resistors:
        if node in (start, end):
            far = end if node == start else start
            row[nodes.index(node)] += 1 / ohms
            if far in nodes:
                row[nodes.index(far)] -= 1 / ohms
    return row


def _solved(rows: list[list[Fraction]]) -> list[Fraction]:
    """Gauss-Jordan elimination, exact."""
    for at in range(len(rows)):
        pivot = next(row for row in range(at, len(rows)) if rows[row][at])
        rows[at], rows[pivot] = rows[pivot], rows[at]
        rows[at] = [cell / rows[at][at] for cell in rows[at]]
        for row in range(len(rows)):
            if row != at:
                rows[row] = [cell - rows[row][at] * own for cell, own in zip(rows[row], rows[at], strict=True)]
    return [row[-1] for row in rows]
