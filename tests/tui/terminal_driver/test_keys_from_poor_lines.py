"""Keys and pastes come out whole, whatever the line has torn, lost or altered, and nothing is typed that nobody typed."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from textual._ansi_sequences import ANSI_SEQUENCES_KEYS

from tests.tui.terminal import KEYS
from tui.terminal.key_reader import KEY_PATIENCE, PASTE_MAX, PASTE_PATIENCE, KeyReader, Pasted, TypedText

WHOLE = [*KEYS.values(), "a", "Z", "0", " ", "£", "é", "漢"]
BEGINS, ENDS = b"\x1b[200~", b"\x1b[201~"


class Hearing:
    """A reader that hears bytes at given times."""

    def __init__(self) -> None:
        self.reader = KeyReader(ANSI_SEQUENCES_KEYS.__contains__)
        self.now = 100.0
        self.got: list[str | Pasted] = []

    def hears(self, received: bytes, after: float = 0.0) -> "Hearing":
        self.now += after
        self._take(list(self.reader.feed(received, self.now)))
        return self

    def waits(self, seconds: float) -> "Hearing":
        self.now += seconds
        self._take(list(self.reader.late(self.now)))
        return self

    def _take(self, parts: list[TypedText | Pasted]) -> None:
        self.got += [part.sequence if isinstance(part, TypedText) else part for part in parts]


@given(st.lists(st.sampled_from([key for key in WHOLE if key != "\x1b"])), st.data())
def test_keys_are_the_same_however_the_line_cuts_them(keys: list[str], data: st.DataObject) -> None:
    hearing, sent = Hearing(), "".join(keys).encode()
    cuts = sorted(data.draw(st.lists(st.integers(0, len(sent)))))
    for start, end in zip([0, *cuts], [*cuts, len(sent)], strict=True):
        hearing.hears(sent[start:end], after=KEY_PATIENCE * 0.9)
    assert hearing.got == keys


@pytest.mark.parametrize("key", ["up", "f5", "pagedown", "shift+tab", "f1"])
def test_a_key_torn_apart_is_still_that_key(key: str) -> None:
    hearing = Hearing()
    for byte in KEYS[key].encode():
        hearing.hears(bytes([byte]), after=KEY_PATIENCE * 0.9)
    assert hearing.got == [KEYS[key]]


def test_escape_alone_is_escape_once_nothing_follows() -> None:
    hearing = Hearing().hears(b"\x1b")
    assert hearing.waits(KEY_PATIENCE * 0.9).got == []
    assert hearing.waits(KEY_PATIENCE * 0.2).got == ["\x1b"]


@pytest.mark.parametrize("after", ["1", "y", "\r", "\t", "O"])
def test_what_is_typed_straight_after_escape_is_not_lost(after: str) -> None:
    assert Hearing().hears(f"\x1b{after}".encode()).waits(KEY_PATIENCE).got == ["\x1b", after]


def test_escape_twice_is_escape_twice() -> None:
    assert Hearing().hears(b"\x1b\x1b").waits(KEY_PATIENCE).got == ["\x1b", "\x1b"]


@pytest.mark.parametrize(
    "unknown", ["\x1b[99~", "\x1b[1;9Q", "\x1b[?2026;2$y", "\x1b[<35;40;12M", "\x1b[24;80R", "\x1b[I", "\x1b[O"]
)
def test_a_sequence_that_is_no_key_types_nothing(unknown: str) -> None:
    assert Hearing().hears(f"{unknown}a".encode()).waits(KEY_PATIENCE).got == ["a"]


def test_a_mouse_left_on_by_another_program_types_nothing() -> None:
    assert Hearing().hears(b"\x1b[M #$" + b"a").got == ["a"]


def test_the_rest_of_a_key_that_never_comes_is_forgotten() -> None:
    assert Hearing().hears(b"\x1b[1").waits(KEY_PATIENCE).hears(b"a").got == ["a"]


@pytest.mark.parametrize(
    ("received", "letter"), [(b"\xa3", "£"), (b"\xe9", "é"), (b"\x9f", "\ufffd"), ("£".encode(), "£")]
)
def test_a_letter_that_is_not_utf_8_is_read_as_latin_1(received: bytes, letter: str) -> None:
    assert Hearing().hears(b"5" + received + b"0").got == ["5", letter, "0"]


@given(st.binary(max_size=40))
def test_no_bytes_stop_the_keys_that_come_after(noise: bytes) -> None:
    hearing = Hearing().hears(noise).waits(PASTE_PATIENCE)
    before = len(hearing.got)
    assert hearing.hears(b"ab", after=KEY_PATIENCE).got[before:][-2:] == ["a", "b"]


def test_a_paste_is_one_text_with_plain_line_ends() -> None:
    hearing = Hearing().hears(BEGINS + b"0.42\r0.38\r\n0.51\n").hears(b"\x1b[20").hears(b"1~x")
    assert hearing.got == [Pasted("0.42\n0.38\n0.51\n"), "x"]


def test_a_paste_holds_no_keys_and_nothing_a_terminal_would_obey() -> None:
    hearing = Hearing().hears(BEGINS + b"a\x1b[2Jb\x07\x00c\td\x9bm" + ENDS)
    assert hearing.got == [Pasted("a[2Jbc\td\ufffdm")]


def test_a_paste_whose_end_is_lost_ends_when_it_falls_silent() -> None:
    hearing = Hearing().hears(BEGINS + b"14 Weir")
    hearing.hears(b" Lane", after=PASTE_PATIENCE * 0.9)
    assert hearing.got == []
    assert hearing.waits(PASTE_PATIENCE).hears(b"\r").got == [Pasted("14 Weir Lane"), "\r"]


def test_keys_after_a_lost_end_are_keys_even_when_nobody_waited() -> None:
    assert Hearing().hears(BEGINS + b"14").hears(b"\t", after=PASTE_PATIENCE).got == [Pasted("14"), "\t"]


def test_nothing_is_waited_for_when_nothing_is_open() -> None:
    hearing = Hearing().hears(b"abc")
    assert hearing.reader.patience(hearing.now) is None
    hearing.hears(b"\x1b")
    assert hearing.reader.patience(hearing.now) == pytest.approx(KEY_PATIENCE)


def test_of_a_paste_no_box_takes_only_that_it_is_too_long_is_kept() -> None:
    hearing = Hearing().hears(BEGINS + b"9" * PASTE_MAX).hears(b"9" * 4_000_000 + b"\x1b[201").hears(b"~\r")
    assert hearing.got == [Pasted("9" * (PASTE_MAX + 1)), "\r"]


@given(st.lists(st.integers(1, 20), max_size=12), st.sampled_from([b"a~b", b"\x1b[201", b"\x1b[20\x1b[201", b""]))
def test_a_paste_is_the_same_however_the_line_tears_it(lengths: list[int], text: bytes) -> None:
    whole, hearing, at = BEGINS + text + ENDS + b"x", Hearing(), 0
    for length in [*lengths, len(whole)]:
        hearing.hears(whole[at : at + length])
        at += length
    assert hearing.got == Hearing().hears(whole).got
    assert hearing.got[-1] == "x"
