"""Words a figure cannot use are refused with what is allowed, and nothing typed makes it fail."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from domain.figures.asked.answer import FigureAnswer, NotAskableError
from domain.figures.asked.catalogue import FIGURES, ask, figure_named, keys_of
from tests.domain.figures.asked.typed import asked

BREAKER = "device=BS EN 60898"


@pytest.mark.parametrize(
    ("line", "names"),
    [
        ("voltage / u0=230", "zs-max"),
        (f"zs-max / {BREAKER} / type=B / rating=abc", "rating"),
        (f"zs-max / {BREAKER} / type=B / rating=32V", "rating is in A, not 'V'"),
        (f"zs-max / {BREAKER} / type=B / rating=32mA", "in A"),
        (f"zs-max / {BREAKER} / type=B / rating=0", "above 0"),
        (f"zs-max / {BREAKER} / type=B / rating=-32", "above 0"),
        (f"zs-max / {BREAKER} / type=B / rating=1e2", "in A"),
        (f"zs-max / {BREAKER} / type=B / rating=NaN", "is no number"),
        (f"zs-max / {BREAKER} / type=B / rating=٣٢", "is no number"),
        (f"zs-max / {BREAKER} / type=E / rating=32", "type is B, C or D"),
        (f"zs-max / {BREAKER} / rating=32", "B, C or D"),
        (f"zs-max / {BREAKER} / type=B", "rating"),
        (f"zs-max / {BREAKER} / type=B / rating=32 / time=0.2", "time is 0.4 or 5 s"),
        (f"zs-max / {BREAKER} / type=B / rating=32 / colour=red", "device, type, rating, zs, time or edition"),
        (f"zs-max / {BREAKER} / type=B / rating=32 / rating=32", "given twice"),
        (f"zs-max / {BREAKER} / type=B / rating=32 / Rating=32", "given twice"),
        (f"zs-max / {BREAKER} / type=B / rating=", "has no value"),
        (f"zs-max / {BREAKER} / type=B / rating=32 / edition=A9", "edition is EARLIER, A2, A3 or A4"),
        (f"zs-max / {BREAKER} / type=D / rating=32", "time=0.4 or time=5"),
        ("zs-max / type=B / rating=32", "BS EN 60898"),
        ("zs-max / device=BS / EN / 60898", "quotes"),
        ("zs-max / EN", "quotes"),
        ("zs-max / device=BS 3871 / rating=32", "1, 2, 3 or 4"),
        ("zs-max / device=BS 3871 / type=B / rating=32", "type is 1, 2, 3 or 4 of a BS 3871 device"),
        ("zs-max / device=BS EN 60947-2 / rating=32", "BS 88-2"),
        ("zs-max / device=BS 3036 / type=B / rating=30 / time=5", "has none; leave it out"),
        ("zs-max / device=BS 88-2 / type=B / rating=32 / time=5", "marked gG, E or G"),
        ("zs / ze=0.35", "r1r2"),
        ("zs / ze=1,234 / r1r2=1", "1234 or 1.234"),
        ("zs / ze=>200 / r1r2=1", "out of range"),
        ("zs / ze=0.35mΩ / r1r2=1", "in Ω"),
        ("zs / ze=1 / r1r2=1 / factor=1.2A", "has no unit"),
        ("r1-r2 / line=3 / cpc=1.5 / length=18", "2.5, 4, 6"),
        ("r1-r2 / line=2.5 / length=18", "cpc= or cores="),
        ("r1-r2 / line=2.5 / cpc=1.5 / cores=3 / length=18", "only one of"),
        ("r1-r2 / line=10 / cores=3 / length=18", "1.5, 2.5, 4 or 6"),
        ("r1-r2 / line=2.5 / cpc=1.5 / length=-18", "above 0"),
        ("r1-r2 / line=2.5 / cpc=1.5 / length=0", "above 0"),
        ("r1-r2 / line=2.5 / cpc=1.5 / length=18km", "in m"),
        ("r1-r2 / line=2.5 / cpc=1.5 / length=18 / factor=1.2 / temperature=70", "not both"),
        ("r1-r2 / line=2.5 / cpc=1.5 / length=18 / material=gold", "copper, flexible copper or aluminium"),
        ("r1-r2 / line=6 / cpc=2.5 / length=18 / material=aluminium", "10, 16"),
        ("resistance-at / r20=1 / temperature=300", "-50 to 250"),
        ("ring / r1=0.32 / r2=0.53 / line=2.5", "together"),
        ("ring / r1=0.32 / r2=0.53 / line=3 / cpc=1.5", "sizes of the table"),
        ("ring / r1=0 / r2=0.53", "above 0"),
        ("insulation / voltage=250", "circuit="),
        ("insulation / voltage=50", "circuit="),
        ("insulation / voltage=500 / circuit=SELV", "250 V"),
        ("insulation / voltage=1000 / circuit=LV", "500 V"),
        ("insulation / voltage=400 / circuit=above 500 V", "1000 V"),
        ("insulation / voltage=501 / circuit=sensitive equipment", "250 V"),
        ("insulation / circuit=XELV", "SELV"),
        ("insulation / parallel=40,0", "above 0"),
        ("insulation / parallel=40,,8", "no number"),
        ("insulation / parallel=40 mohm", "in MΩ"),
        ("insulation / parallel=40 / circuit=LV", "only combines"),
        ("insulation / parallel=" + ",".join("1" * 61), "at most 60"),
        ("rcd-time / idn=30", "BS EN 61008"),
        ("rcd-time / standard=BS EN 60898", "BS EN 61008"),
        ("rcd-time / standard=BS EN 61008 / times=3", "0.5, 1, 2 or 5"),
        ("rcd-time / standard=BS EN 61008 / type=Z", "general or S"),
        ("rcd-time / standard=BS EN 61008 / delay=200", "BS 4293"),
        ("rcd-time / standard=BS EN 61008 / idn=0.03A", "in mA"),
        ("fault-current / z=0", "above 0"),
        ("fault-current / z=0.3 / phases=2", "1 or 3"),
        ("adiabatic / time=1 / k=115", "current= or zs="),
        ("adiabatic / current=100 / zs=1 / time=1 / k=115", "only one of"),
        ("adiabatic / current=100 / u0=230 / time=1 / k=115", "already the current"),
        ("adiabatic / current=100 / time=1", "k="),
        ("adiabatic / current=100 / time=1 / k=115 / insulation=PVC", "already the factor"),
        ("adiabatic / current=100 / time=5.1 / k=115", "up to 5 s"),
        ("adiabatic / current=100 / time=1 / insulation=wood", "70 °C thermoplastic"),
        ("adiabatic / current=100 / time=1 / insulation=cable", "70 °C thermoplastic"),
        ("adiabatic / current=100 / time=1 / insulation=°", "70 °C thermoplastic"),
        ("adiabatic / current=100 / time=1 / insulation=bare", "any of these: bare, visible"),
        ("adiabatic / current=100 / time=1 / insulation=90", "90 °C thermosetting in cable"),
        ("adiabatic / current=100 / time=1 / material=steel / insulation=armour", "any of these"),
        ("bonding / neutral=25", "PME or not PME"),
        ("bonding / supply=PME / earthing=16", "neutral="),
        ("bonding / supply=not PME / neutral=25", "earthing="),
        ("volt-drop / current=20 / length=25", "table= or mv-per-a-m="),
        ("volt-drop / table=4D5 / mv-per-a-m=18 / current=20 / length=25", "only one of"),
        ("volt-drop / mv-per-a-m=18 / csa=2.5 / current=20 / length=25", "already"),
        ("volt-drop / table=4D5 / current=20 / length=25", "csa"),
        ("volt-drop / table=4D5 / csa=25 / current=20 / length=25", "10 or 16"),
        ("volt-drop / table=4D5 / csa=2.5 / current=20 / length=25 / phases=3", "single-phase"),
        ("volt-drop / table=4D9 / csa=2.5 / current=20 / length=25", "4D1B, 4D2B, 4D4B, 4D5, 4E1B, 4E2B, 4E4B or 4G1B"),
        ("cable-rating / table=4D5 / csa=2.5 / method=B", "100, 101"),
        ("cable-rating / table=4G1A / csa=2.5 / method=C", "4G1A 500 V or 4G1A 750 V"),
        ("cable-rating / table=4D4A / csa=16 / method=D / ambient=25", "type ca="),
        ("cable-rating / table=4D5 / csa=25 / method=C", "10 or 16"),
        ("cable-rating / table=4D5 / csa=2.5 / method=C / phases=3", "single-phase"),
        ("cable-rating / table=4D5 / csa=2.5 / method=C / ca=0.94 / ambient=35", "stands for it"),
        ("cable-rating / table=4D5 / csa=2.5 / method=C / ambient=61", "ends below"),
        ("cable-rating / table=4D5 / csa=2.5 / method=C / circuits=21", "cg="),
        ("cable-rating / table=4D5 / csa=2.5 / method=C / arrangement=tray", "circuits="),
        ("cable-rating / table=4D5 / csa=2.5 / method=C / ib=16", "in="),
        ("cable-rating / table=4D5 / csa=2.5 / method=C / ca=3", "to 2"),
        ("disconnection / system=IT / circuit=final", "TN-S"),
        ("disconnection / system=TN-S", "final or distribution"),
        ("disconnection / system=TN-S / circuit=final / rating=40", "sockets=yes or sockets=no"),
        ("disconnection / system=TN-S / circuit=final / u0=1001", "to 1000"),
        ("interval / premises=domestic", "owner occupied or Domestic, rented"),
        ("interval / premises=house", "may be any of these: Domestic, owner occupied or Domestic, rented"),
        ("interval / premises=nursery", "Educational or Agricultural and horticultural"),
        ("interval / premises=moon base", "Office"),
        ("interval / premises=!", "Office"),
        ("interval / premises=office / nation=England", "rented"),
        ("interval / premises=rented / nation=France", "England"),
    ],
)
def test_words_that_cannot_be_used_are_refused_with_what_is_allowed(line: str, names: str) -> None:
    with pytest.raises(NotAskableError) as refused:
        asked(line)
    sentence = str(refused.value)
    assert names in sentence
    assert "\n" not in sentence


KEYS = {figure.name: [key.name for key in keys_of(figure)] for figure in FIGURES}
EXAMPLE_VALUES = sorted({word.partition("=")[2] for figure in FIGURES for words in figure.examples for word in words})
VALUES = st.one_of(
    st.sampled_from([*EXAMPLE_VALUES, "0", "-1", "1e9", "999999", "0.000001", "40,10,8", "°", "C", "LV", "TT", "A4"]),
    st.from_regex(r"[<>-]?[0-9]{0,7}[.,]?[0-9]{0,4} ?(A|mA|V|Ω|m|s|mm2)?", fullmatch=True),
    st.text(max_size=20),
)


def answered_or_refused(name: str, words: list[str]) -> FigureAnswer | str:
    try:
        return ask(figure_named(name), words)
    except NotAskableError as refused:
        return str(refused)


@settings(suppress_health_check=[HealthCheck.too_slow])
@given(st.data())
def test_whatever_is_typed_is_answered_or_refused_in_a_sentence(data: st.DataObject) -> None:
    figure = data.draw(st.sampled_from(FIGURES))
    words = [*data.draw(st.sampled_from(figure.examples))] if data.draw(st.booleans()) else []
    for _ in range(data.draw(st.integers(0, 5))):
        changed = f"{data.draw(st.sampled_from(KEYS[figure.name]))}={data.draw(VALUES)}"
        words = [word for word in words if word.partition("=")[0] != changed.partition("=")[0]] + [changed]
    answer = answered_or_refused(figure.name, words)
    if isinstance(answer, FigureAnswer):
        assert answer.value is None or answer.value.is_finite()
        assert answer.source
        assert answer.trust
    else:
        assert answer


@given(st.text(max_size=30), st.lists(st.text(max_size=30), max_size=4))
def test_any_text_at_all_is_answered_or_refused(name: str, words: list[str]) -> None:
    assert answered_or_refused(name, words)
