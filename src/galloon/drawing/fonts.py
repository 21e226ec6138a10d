"""The one font of all prints: which characters it can show, and how wide words come out.

The font is Arimo (SIL Open Font License 1.1, from the package ``fontpkg-arimo``): Latin with all European
accents and Vietnamese, Greek, Cyrillic and Hebrew, and as wide as the sans-serif that browsers fall back to.
Words are kept in Unicode NFC. What the font cannot show rightly is refused by name: letters it lacks (Arabic,
Chinese, emoji), marks that do not melt into a letter, and control characters. It is loaded on first need.
"""

from __future__ import annotations

import unicodedata
from functools import cache
from typing import TYPE_CHECKING, Final

from galloon.errors import CannotMake

if TYPE_CHECKING:
    from reportlab.pdfbase.ttfonts import TTFont

FONT_NAME: Final = "Arimo"
#: Height of capitals as a share of the size (sCapHeight 1409 of 2048 units, from the font's own OS/2 table).
CAPITALS: Final = 1409 / 2048
#: Control, format, private, surrogate and unassigned characters; separators of lines; unattached marks.
_REFUSED_KINDS: Final = frozenset({"Cc", "Cf", "Co", "Cs", "Cn", "Zl", "Zp", "Mn", "Mc", "Me"})
_RIGHT_TO_LEFT: Final = frozenset({"R", "AL"})
_PLAIN: Final = frozenset(map(chr, range(0x20, 0x7F)))


@cache
def load_font() -> TTFont:
    """The font, registered with the PDF library under ``FONT_NAME``."""
    import fontpkg_arimo  # type: ignore[import-untyped]
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    font = TTFont(FONT_NAME, str(fontpkg_arimo.ROOT / "files" / "Arimo[wght].ttf"))
    pdfmetrics.registerFont(font)
    return font


def normal(text: str) -> str:
    """The text with letters and their marks melted together (Unicode NFC)."""
    return text if text.isascii() else unicodedata.normalize("NFC", text)


def in_print_order(text: str) -> str:
    """The text with right-to-left runs laid out for printing from the left; other text unchanged."""
    text = normal(text)
    if text.isascii() or not any(unicodedata.bidirectional(char) in _RIGHT_TO_LEFT for char in text):
        return text
    from bidi import get_display  # type: ignore[import-untyped]

    return str(get_display(text, base_dir="L"))


def unprintable(text: str) -> tuple[str, ...]:
    """The characters in ``text`` that cannot be printed, each once, as ``"🧵 (U+1F9F5 SPOOL OF THREAD)"``."""
    return tuple(_named(char) for char in dict.fromkeys(normal(text)) if not _can_print(char))


def require_printable(text: str) -> None:
    """Raise CannotMake naming what in ``text`` the font cannot show."""
    if not (text.isascii() and text.isprintable()) and (refused := unprintable(text)):
        raise CannotMake("text", f"cannot print {', '.join(refused)}", text, "Write it with other characters.")


def _can_print(char: str) -> bool:
    if char in _PLAIN:
        return True
    if unicodedata.category(char) in _REFUSED_KINDS:
        return False
    return ord(char) in load_font().face.charToGlyph


def _named(char: str) -> str:
    code = f"U+{ord(char):04X} {unicodedata.name(char, 'control character')}"
    return f"{char} ({code})" if char.isprintable() and not unicodedata.combining(char) else code


@cache
def _advances() -> tuple[dict[int, float], float]:
    face = load_font().face
    return {code: width / 1000.0 for code, width in face.charWidths.items()}, face.defaultWidth / 1000.0


def text_width(text: str, size: float) -> float:
    """Width in mm of one line at ``size`` mm, as the PDF prints it (no kerning; bold is as wide as plain)."""
    widths, default = _advances()
    return size * sum(widths.get(ord(char), default) for char in normal(text))


def shorten(text: str, size: float, width: float) -> str:
    """The text, cut and ended with "…" so that it is at most ``width`` mm wide; "…" at the least."""
    text = normal(text)
    if text_width(text, size) <= width:
        return text
    while text and text_width(text + "…", size) > width:
        text = text[:-1]
    return text.rstrip() + "…"


def wrap(text: str, size: float, width: float) -> tuple[str, ...]:
    """The text in lines of at most ``width`` mm, broken at spaces; a word wider than that is broken anywhere."""
    lines = [""]
    for word in normal(text).split():
        joined = f"{lines[-1]} {word}" if lines[-1] else word
        if text_width(joined, size) <= width:
            lines[-1] = joined
        else:
            pieces = _broken(word, size, width)
            lines[-1:] = [*filter(None, lines[-1:]), *pieces]
    return tuple(lines)


def _broken(word: str, size: float, width: float) -> list[str]:
    pieces = [""]
    for char in word:
        if pieces[-1] and text_width(pieces[-1] + char, size) > width:
            pieces.append("")
        pieces[-1] += char
    return pieces
