"""The least size of a conductor that survives a fault."""

from decimal import Decimal

from domain.figures.answer import Answer, NotAskableError, worked_out
from domain.figures.figure import Figure
from domain.figures.given import Given
from domain.figures.key import Key, choice, either, number, words
from domain.formulas.adiabatic import least_csa, next_size
from domain.formulas.rounding import written
from domain.limits.conductors import sizes_as_made
from domain.limits.k_factors import conductors_called
from domain.limits.limit import Limit
from domain.limits.loader import named_figure, table

_CURRENT = number("current", "fault current", "A")
_U0 = number(
    "u0", "nominal voltage to earth, with zs= instead of current=", "V", at_most=Decimal(1000), default="230 V"
)
_ZS = number("zs", "loop impedance, instead of current=", "Ω")
_TIME = number("time", "operating time of the device at that current", "s")
_K = number("k", "adiabatic factor", "A√s/mm²", at_most=Decimal(1000))
_MATERIAL = choice(
    "material",
    "instead of k=",
    {"copper": ("cu",), "aluminium": ("al", "aluminum"), "steel": (), "lead": ()},
    default="copper",
)
_INSULATION = words(
    "insulation", "instead of k=", "words of the table of k, such as 70 °C thermoplastic, 90 °C thermosetting or armour"
)


def _adiabatic(given: Given) -> Answer:
    scope = {
        name: named_figure("adiabatic_scope", name, given.edition) for name in ("holds up to", "maker's I²t below")
    }
    time = given.need(_TIME)
    if time > scope["holds up to"].value:
        raise NotAskableError(
            f"time is up to {scope['holds up to'].shown}: the adiabatic equation holds no longer than that"
        )
    current, how = _current(given)
    k, named, notes = _k(given)
    size = next_size(sizes_as_made(given.edition), current, time, k.value if k else given.need(_K))
    answer = worked_out(
        least_csa(current, time, k.value if k else given.need(_K)),
        *((k.source,) if k else ()),
        notes=(_next(size), *named, *notes, *_brief(time, scope["maker's I²t below"])),
    )
    return answer.model_copy(update={"working": f"{how}{answer.working}"})


def _next(size: Decimal | None) -> str:
    return f"next standard size {written(size)} mm²" if size else "no standard size of one conductor is enough"


def _brief(time: Decimal, below: Limit) -> tuple[str, ...]:
    if time >= below.value:
        return ()
    return (f"below {below.shown} the energy let through counts: use the maker's I²t instead of this sum",)


def _current(given: Given) -> tuple[Decimal, str]:
    """The fault current, and the sum it came from."""
    if given.one_of(_CURRENT, _ZS) is _CURRENT:
        given.refuse("current= is already the current", _U0)
        return given.need(_CURRENT), ""
    u0 = given.get(_U0, named_figure("loop", "U0", given.edition).value)
    zs = given.need(_ZS)
    return u0 / zs, f"I = {written(u0)} V / {written(zs)} Ω; "


def _k(given: Given) -> tuple[Limit | None, tuple[str, ...], tuple[str, ...]]:
    """The factor of the table, the row it stands in, and the other rows that might be meant."""
    if given.has(_K):
        because = "k= is already the factor"
        given.refuse(because, _MATERIAL, _INSULATION)
        return None, (), ()
    if not given.has(_INSULATION):
        raise NotAskableError("adiabatic needs k=, or insulation= with material=")
    material = given.get(_MATERIAL, "copper")
    rows = conductors_called(material, given.need(_INSULATION), given.edition)
    if not rows:
        known = either(_conductors(material, given))
        raise NotAskableError(
            f"insulation={given.need(_INSULATION)!r} is not in the table; for {material} it has {known}"
        )
    first, *others = rows
    factor = first.figures["k"]
    named = f"k = {factor.value}: {material}, {first.texts['conductor']}"
    return (
        factor,
        (named,),
        tuple(f"not taken: {row.texts['conductor']}, k = {row.figures['k'].value}" for row in others[:3]),
    )


def _conductors(material: str, given: Given) -> tuple[str, ...]:
    rows = table("k_values", given.edition).rows
    return tuple(row.texts["conductor"] for row in rows if row.texts["material"] == material)


_KEYS: tuple[Key[Decimal] | Key[str], ...] = (_CURRENT, _U0, _ZS, _TIME, _K, _MATERIAL, _INSULATION)
ADIABATIC = Figure(
    "adiabatic",
    "least size of a conductor for a fault, and the next standard size",
    "mm²",
    _KEYS,
    (
        ("current=1200", "time=0.1", "k=115"),
        ("u0=230", "zs=0.5", "time=0.4", "material=copper", "insulation=70 °C thermoplastic"),
    ),
    _adiabatic,
)
