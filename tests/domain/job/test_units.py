"""A reading's type has the unit of its box, so that the type checker tells an ohm from an ampere."""

import ast
from collections.abc import Iterator
from pathlib import Path

import domain.job

TYPES = {
    "Ω": "Ohms",
    "MΩ": "Megohms",
    "A": "Amperes",
    "mA": "Milliamperes",
    "kA": "Kiloamperes",
    "V": "Volts",
    "Hz": "Hertz",
    "m": "Metres",
    "mm": "Millimetres",
    "mm²": "SquareMillimetres",
    "s": "Seconds",
    "ms": "Milliseconds",
    "°C": "Celsius",
    "days": "Days",
    "%": "Percent",
    "": "",
}


def readings() -> Iterator[tuple[str, str, str]]:
    """Where a box with a reading is declared, the unit of the box, and the unit its type names."""
    for path in sorted(Path(domain.job.__file__).parent.glob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            match node:
                case ast.Subscript(
                    value=ast.Name(id="Annotated"), slice=ast.Tuple(elts=[typed, ast.Call() as box, *_])
                ):
                    written = ast.unparse(typed)
                    if written.partition("[")[0] == "Reading":
                        said = {key.arg: ast.literal_eval(key.value) for key in box.keywords if key.arg == "unit"}
                        named = written.removeprefix("Reading").strip("[]")
                        yield f"{path.name}:{node.lineno}", said.get("unit", ""), named


def test_the_type_of_every_reading_names_the_unit_of_its_box() -> None:
    found = list(readings())
    assert len(found) > 60
    assert [(at, unit, named) for at, unit, named in found if TYPES[unit] != named] == []
