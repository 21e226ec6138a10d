"""Every exception the program raises on purpose.

    GalloonError                 root; ``str(error)`` is a sentence for the maker
    ├── BadValue                 a value object refused a field (also a ValueError)
    ├── CannotMake               a result that no drawing satisfies
    ├── BadInput                 one or more Faults found in what was handed in
    └── CannotWrite              a target that cannot be written; nothing was changed

Judging a design never raises: checks return findings (see ``findings``).
"""

from __future__ import annotations

from dataclasses import dataclass


class GalloonError(Exception):
    """Root of the tree."""


class BadValue(GalloonError, ValueError):
    """A value object was given a field it cannot hold.

    ``subject`` names the field, ``rule`` what must hold, ``seen`` the value refused.
    """

    def __init__(self, subject: str, rule: str, seen: object) -> None:
        self.subject = subject
        self.rule = rule
        self.seen = seen
        super().__init__(f"{subject}: {rule}, but it is {show(seen)}")


class CannotMake(GalloonError):
    """No drawing satisfies what was asked; ``hint`` says what would help."""

    def __init__(self, subject: str, rule: str, seen: object = None, hint: str = "") -> None:
        self.subject = subject
        self.rule = rule
        self.seen = seen
        self.hint = hint
        tail = "" if seen is None else f" (seen: {show(seen)})"
        super().__init__(f"{subject}: {rule}{tail}" + (f". {hint}" if hint else ""))


@dataclass(frozen=True)
class Fault:
    """One thing wrong with the input: where it stands, what was seen, the rule, what to do."""

    file: str
    line: int | None
    key: str
    seen: str
    rule: str
    hint: str = ""

    def __str__(self) -> str:
        place = self.file if self.line is None else f"{self.file}:{self.line}"
        seen = f" (seen: {self.seen})" if self.seen else ""
        hint = f" {self.hint}" if self.hint else ""
        return f"{place}: {self.key}: {self.rule}{seen}.{hint}"


class BadInput(GalloonError):
    """All the faults of one input at once; never empty."""

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        self.faults = faults
        super().__init__("\n".join(str(fault) for fault in faults))


class CannotWrite(GalloonError):
    """A file or folder could not be written; what stood there before is untouched."""

    def __init__(self, target: str, reason: str) -> None:
        self.target = target
        self.reason = reason
        super().__init__(f"cannot write {target}: {reason}. What was there before is untouched.")


def show(value: object, limit: int = 60) -> str:
    """A value as one short printable line: control characters escaped, long text cut."""
    text = value if isinstance(value, str) else repr(value)
    text = "".join(ch if ch.isprintable() else f"\\x{ord(ch):02x}" for ch in text)
    return text if len(text) <= limit else text[: limit - 1] + "…"
