"""One key: what it does, its word in the foot line, its sentence in the help."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Key:
    """One binding. `keys` is a comma-separated list as Textual names keys; the first is shown."""

    id: str
    keys: str
    action: str
    word: str
    says: str
    foot: bool = True
    listed: bool = True
    """Worth picking from the list of everything that can be done; moving about is not."""

    @property
    def shown(self) -> str:
        """The key as printed on a keyboard; "" where at this place it does something else."""
        return self.ways[0] if self.keys else ""

    @property
    def is_on_enter(self) -> bool:
        """Whether Enter does it, on the keyboard or as another way."""
        return "enter" in self.keys.split(",")

    @property
    def ways(self) -> list[str]:
        """Every key that does it, as printed on a keyboard; what a keypad or an old terminal sends is left out."""
        names = [name for name in self.keys.split(",") if name not in {"ctrl+j", "ctrl+h"}]
        return list(dict.fromkeys(_printed(name) for name in names))


def _printed(name: str) -> str:
    return _SHOWN.get(name) or (f"Ctrl+{name[5:].upper()}" if name.startswith("ctrl+") else name.upper())


_SHOWN = {
    "enter": "Enter",
    "escape": "Esc",
    "tab": "Tab",
    "shift+tab": "Shift+Tab",
    "up": "Up",
    "down": "Down",
    "left": "Left",
    "right": "Right",
    "home": "Home",
    "end": "End",
    "pageup": "PgUp",
    "pagedown": "PgDn",
    "delete": "Del",
    "insert": "Insert",
    "backspace": "Backspace",
    "space": "Space",
    "slash": "/",
    "ctrl+up": "Ctrl+Up",
    "ctrl+down": "Ctrl+Down",
    "ctrl+left": "Ctrl+Left",
    "ctrl+right": "Ctrl+Right",
    "ctrl+home": "Ctrl+Home",
    "ctrl+end": "Ctrl+End",
}
