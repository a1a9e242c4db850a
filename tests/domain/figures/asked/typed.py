"""Figures asked for as a person types them, for tests: the name and its words between slashes."""

from domain.figures.asked.answer import FigureAnswer
from domain.figures.asked.catalogue import ask, figure_named


def asked(line: str) -> FigureAnswer:
    """The answer to `name / key=value / …`."""
    name, *words = line.split(" / ")
    return ask(figure_named(name), words)


def said(answer: FigureAnswer) -> str:
    """The sum and the notes as one text."""
    return " | ".join((answer.working, *answer.notes))
