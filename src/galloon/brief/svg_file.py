"""An SVG file as data, never followed: no entities, no document type, no scripts, nothing that points elsewhere."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from lxml import etree

from galloon.brief.svg_path import transform_of
from galloon.drawing import Matrix
from galloon.errors import BadValue
from galloon.said import said

#: mm per unit of an SVG length; a bare number and px are 1/96 inch (CSS Values and Units, absolute lengths).
_MM: Final = {
    "": 25.4 / 96.0,
    "px": 25.4 / 96.0,
    "mm": 1.0,
    "cm": 10.0,
    "in": 25.4,
    "pt": 25.4 / 72.0,
    "pc": 25.4 / 6.0,
}
_LENGTH: Final = re.compile(r"\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*([a-z]*)\s*$")
_SHAPES: Final = ("path", "polygon", "polyline", "rect", "circle", "ellipse")
#: Elements that run, load or embed something.
_BARRED: Final = (
    "script",
    "foreignObject",
    "image",
    "use",
    "iframe",
    "animate",
    "set",
    "animateTransform",
    "a",
    "feImage",
)
#: Elements whose shapes are not drawn themselves.
_UNDRAWN: Final = ("defs", "symbol", "clipPath", "mask", "pattern", "marker")
_MOST_ELEMENTS: Final = 2000


def drawn_in(text: str) -> tuple[etree._Element, list[etree._Element]]:
    """The drawing and its shapes. Raises BadValue, naming the line of the file, for what is not read."""
    root = _parsed(text)
    if name_of(root) != "svg":
        raise refused(root, said("must be an SVG drawing, not <{name}>", name=name_of(root)))
    elements = list(_checked(root))
    return root, [one for one in elements if name_of(one) in _SHAPES and not _hidden(one)]


def refused(element: etree._Element, rule: str, seen: object = None) -> BadValue:
    """The fault with the line of the file it lies in."""
    where = said("line {line}: {rule}", line=element.sourceline, rule=rule)
    return BadValue("svg", where, f"<{name_of(element)}>" if seen is None else seen)


def _parsed(text: str) -> etree._Element:
    barred = re.search(r"<!(?:DOCTYPE|ENTITY)", text, re.IGNORECASE)
    if barred:
        line = text.count("\n", 0, barred.start()) + 1
        rule = said("must have no document type and no entities")
        raise BadValue("svg", said("line {line}: {rule}", line=line, rule=rule), barred[0])
    if re.search(r"<\?(?!xml\s)", text):
        raise BadValue("svg", said("must have no processing instructions, such as style sheets"), "<?")
    parser = etree.XMLParser(
        resolve_entities=False, no_network=True, load_dtd=False, dtd_validation=False, huge_tree=False, recover=False
    )
    try:
        return etree.fromstring(re.sub(r"^\s*<\?xml[^>]*\?>", "", text), parser)
    except etree.XMLSyntaxError as error:
        raise BadValue("svg", said("must be sound XML"), error.msg) from None


def name_of(element: etree._Element) -> str:
    """The tag without its namespace."""
    return etree.QName(element).localname if isinstance(element.tag, str) else ""


def _checked(root: etree._Element) -> Iterator[etree._Element]:
    """Every element; raises BadValue at the first that runs something or points outside."""
    for count, element in enumerate(root.iter()):
        if count > _MOST_ELEMENTS:
            raise BadValue("svg", said("must have at most {most} elements", most=_MOST_ELEMENTS), "more")
        if not isinstance(element.tag, str):
            continue
        if name_of(element) in _BARRED:
            raise refused(element, said("must not hold <{name}>: only a plain shape is read", name=name_of(element)))
        _check_attributes(element)
        if name_of(element) == "style" and re.search(r"@import|url\s*\(", element.text or "", re.IGNORECASE):
            raise refused(element, said("its style must not load anything from elsewhere"))
        yield element


def _check_attributes(element: etree._Element) -> None:
    for key, value in element.attrib.items():
        name = etree.QName(key).localname.lower()
        if name.startswith("on"):
            raise refused(element, said("must not run scripts ({name})", name=name))
        outside = name == "href" and not str(value).startswith("#")
        if outside or re.search(r"url\s*\(\s*['\"]?\s*[^#'\"\s)]", str(value), re.IGNORECASE):
            raise refused(element, said("must not point outside the file ({name})", name=name), str(value)[:60])


def _hidden(element: etree._Element) -> bool:
    return any(name_of(above) in _UNDRAWN for above in element.iterancestors())


def place_of(shape: etree._Element, root: etree._Element) -> Matrix:
    """From the shape's own units to mm on the drawing."""
    place = Matrix.scale(_scale(root))
    for element in [*reversed(list(shape.iterancestors())), shape]:
        try:
            place = transform_of(element.get("transform", "")).then(place)
        except BadValue as error:
            raise refused(element, error.rule, error.seen) from None
    return place


def _scale(root: etree._Element) -> float:
    """mm per user unit: by width and viewBox; without a viewBox a unit is 1/96 inch."""
    box = [float(one) for one in re.findall(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?", root.get("viewBox", ""))]
    if not box:
        return _MM[""]
    if len(box) != 4 or not (0.0 < box[2] < 1e9 and 0.0 < box[3] < 1e9):
        raise refused(root, said("its viewBox must be four numbers with a width and a height"), root.get("viewBox"))
    found = []
    for key, size in (("width", box[2]), ("height", box[3])):
        match = _LENGTH.match(root.get(key, ""))
        if match and match[2] in _MM and float(match[1]) > 0.0:
            found.append(float(match[1]) * _MM[match[2]] / size)
    if not found:
        raise refused(root, said("must say how large it is: width and height in mm"), root.get("width") or "no width")
    return min(found)
