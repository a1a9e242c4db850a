"""Takes what a terminal sends apart into keys and pastes, whatever the line has torn, lost or altered."""

import codecs
from collections.abc import Callable, Generator, Iterator
from dataclasses import dataclass

ESCAPE = "\x1b"
KEY_PATIENCE = 0.35
"""Seconds to wait for the rest of a key: a line tears what the terminal sent in one piece."""
PASTE_PATIENCE = 1.0
"""Seconds of silence after which the end of a paste is taken as lost."""
PASTE_MAX = 100_000
"""Letters of a paste that can be of use; of a longer one no more than one above is kept, to tell that it was longer."""

_PASTE_BEGINS, _PASTE_ENDS = "\x1b[200~", "\x1b[201~"
_LONGEST = 32
"""Letters of the longest sequence a key sends; anything longer is noise."""
_OLD_MOUSE = "\x1b[M"


@dataclass(frozen=True, slots=True)
class TypedText:
    """One key: a letter, or the whole sequence that a terminal sends for it."""

    sequence: str


@dataclass(frozen=True, slots=True)
class Pasted:
    """A text that came marked as pasted."""

    text: str


class KeyReader:
    """Fed with bytes and told the time; gives keys and pastes. Knows sequences by their grammar, and some by name."""

    def __init__(self, is_known: Callable[[str], bool]) -> None:
        self._is_known = is_known
        self._decode = codecs.getincrementaldecoder("utf-8")(errors=_AS_LATIN_1).decode
        self._sequence = ""
        self._paste: list[str] | None = None
        self._pasted = 0
        """Letters among them."""
        self._tail = ""
        """The last of a paste, in which its end may have begun."""
        self._heard = 0.0

    def feed(self, received: bytes, now: float) -> Iterator[TypedText | Pasted]:
        """Everything that is complete with these bytes."""
        yield from self.late(now)
        self._heard = now
        letters, at = self._decode(received), 0
        while at < len(letters):
            if self._paste is None:
                yield from self._typing(letters[at])
                at += 1
            else:
                at = yield from self._pasting(letters, at)

    def late(self, now: float) -> Iterator[TypedText | Pasted]:
        """What must be taken as complete because nothing more has come."""
        wait = self.patience(now)
        if wait is None or wait > 0:
            return
        if self._paste is not None:
            yield from self._end_paste()
        elif self._sequence == ESCAPE:
            yield TypedText(ESCAPE)
        elif self._sequence == f"{ESCAPE}O":
            yield from (TypedText(ESCAPE), TypedText("O"))
        self._sequence = ""

    def patience(self, now: float) -> float | None:
        """Seconds until something must be taken as complete; None when nothing is waiting."""
        if self._paste is None and not self._sequence:
            return None
        patience = KEY_PATIENCE if self._paste is None else PASTE_PATIENCE
        return max(self._heard + patience - now, 0.0)

    def _typing(self, letter: str) -> Iterator[TypedText | Pasted]:
        if not self._sequence:
            if letter == ESCAPE:
                self._sequence = letter
            else:
                yield TypedText(letter)
            return
        if self._sequence == ESCAPE and letter not in "[O":
            # Escape, and the next key typed before there was time to tell them apart.
            yield TypedText(ESCAPE)
            self._sequence = ""
            yield from self._typing(letter)
            return
        if letter == ESCAPE or len(self._sequence) >= _LONGEST:
            self._sequence = ""
            yield from self._typing(letter)
            return
        self._sequence += letter
        if self._is_complete(self._sequence):
            sequence, self._sequence = self._sequence, ""
            if sequence == _PASTE_BEGINS:
                self._paste, self._pasted, self._tail = [], 0, ""
            elif self._is_known(sequence):
                yield TypedText(sequence)

    def _pasting(self, letters: str, at: int) -> Generator[Pasted, None, int]:
        """Take letters from there on as pasted, up to the end of the paste; where the letters after it begin."""
        ahead = len(self._tail)
        letters = self._tail + letters[at:]
        end = letters.find(_PASTE_ENDS)
        if end < 0:
            kept = max(len(letters) - len(_PASTE_ENDS) + 1, 0)
            self._keep(letters[:kept])
            self._tail = letters[kept:]
            return at + len(letters) - ahead
        self._tail = letters[:end]
        yield from self._end_paste()
        return at + end + len(_PASTE_ENDS) - ahead

    def _keep(self, letters: str) -> None:
        assert self._paste is not None
        kept = letters[: PASTE_MAX + 1 - self._pasted]
        self._paste.append(kept)
        self._pasted += len(kept)

    def _end_paste(self) -> Iterator[Pasted]:
        self._keep(self._tail)
        paste, self._paste = "".join(self._paste or ()), None
        text = paste.replace("\r\n", "\n").replace("\r", "\n")
        kept = "".join(letter for letter in text if letter.isprintable() or letter in "\n\t")
        if kept:
            yield Pasted(kept)

    def _is_complete(self, sequence: str) -> bool:
        if sequence.startswith(_OLD_MOUSE):
            return len(sequence) == len(_OLD_MOUSE) + 3
        if self._is_known(sequence):
            return True
        body, last = sequence[2:], sequence[-1]
        if sequence[1] == "O":
            return len(body) == 1
        # The Linux console puts a second bracket before the letter of its first function keys.
        return bool(body) and "@" <= last <= "~" and body != "["


def _latin_1(error: UnicodeError) -> tuple[str, int]:
    """A byte that is no part of UTF-8 is the letter it is in Latin-1, where it is one."""
    if not isinstance(error, UnicodeDecodeError):
        raise error
    wrong = error.object[error.start : error.end]
    return "".join(chr(byte) if byte > 0xA0 else "\ufffd" for byte in wrong), error.end


_AS_LATIN_1 = "terminal-latin-1"
codecs.register_error(_AS_LATIN_1, _latin_1)
