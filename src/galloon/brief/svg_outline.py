"""Reads a motif's outline from the text of an SVG file: one closed shape, in millimetres, y upwards, about its middle.

The file is data, never followed: no entities, no document type, no scripts, nothing that points elsewhere.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from lxml import etree

from galloon.brief.svg_path import Affine, flatten_path, path_of_shape, transform_of
from galloon.design import MOST_OUTLINE_POINTS
from galloon.errors import BadValue

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
#: Largest outline, mm across; and the finest detail kept.
_LARGEST: Final = 1000.0
_DETAIL: Final = 1e-6

Ring = tuple[tuple[float, float], ...]


def outline_of_svg(text: str) -> Ring:
    """The closed outline in an SVG file. Raises BadValue, naming the line of the file, for what it will not read."""
    root = _parsed(text)
    if _name(root) != "svg":
        raise _refused(root, f"must be an SVG drawing, not <{_name(root)}>")
    elements = list(_checked(root))
    shapes = [one for one in elements if _name(one) in _SHAPES and not _hidden(one)]
    if len(shapes) != 1:
        found = f"{len(shapes)} shapes" if shapes else "no shape"
        raise BadValue("svg", "must hold just one closed shape, such as one path", found)
    shape = shapes[0]
    place = _place(shape, root)
    try:
        path = shape.get("d", "") if _name(shape) == "path" else path_of_shape(_name(shape), dict(shape.attrib))
        points = flatten_path(path, place, most=MOST_OUTLINE_POINTS)
    except BadValue as error:
        raise _refused(shape, error.rule, error.seen) from None
    return _centred(shape, points)


def _refused(element: etree._Element, rule: str, seen: object = None) -> BadValue:
    """The fault with the line of the file it lies in."""
    return BadValue("svg", f"line {element.sourceline}: {rule}", f"<{_name(element)}>" if seen is None else seen)


def _parsed(text: str) -> etree._Element:
    barred = re.search(r"<!(?:DOCTYPE|ENTITY)", text, re.IGNORECASE)
    if barred:
        line = text.count("\n", 0, barred.start()) + 1
        raise BadValue("svg", f"line {line}: must have no document type and no entities", barred[0])
    if re.search(r"<\?(?!xml\s)", text):
        raise BadValue("svg", "must have no processing instructions, such as style sheets", "<?")
    parser = etree.XMLParser(
        resolve_entities=False, no_network=True, load_dtd=False, dtd_validation=False, huge_tree=False, recover=False
    )
    try:
        return etree.fromstring(re.sub(r"^\s*<\?xml[^>]*\?>", "", text), parser)
    except etree.XMLSyntaxError as error:
        raise BadValue("svg", "must be sound XML", error.msg) from None


def _name(element: etree._Element) -> str:
    return etree.QName(element).localname if isinstance(element.tag, str) else ""


def _checked(root: etree._Element) -> Iterator[etree._Element]:
    """Every element; raises BadValue at the first that runs something or points outside."""
    for count, element in enumerate(root.iter()):
        if count > _MOST_ELEMENTS:
            raise BadValue("svg", f"must have at most {_MOST_ELEMENTS} elements", "more")
        if not isinstance(element.tag, str):
            continue
        if _name(element) in _BARRED:
            raise _refused(element, f"must not hold <{_name(element)}>: only a plain shape is read")
        _check_attributes(element)
        if _name(element) == "style" and re.search(r"@import|url\s*\(", element.text or "", re.IGNORECASE):
            raise _refused(element, "its style must not load anything from elsewhere")
        yield element


def _check_attributes(element: etree._Element) -> None:
    for key, value in element.attrib.items():
        name = etree.QName(key).localname.lower()
        if name.startswith("on"):
            raise _refused(element, f"must not run scripts ({name})")
        outside = name == "href" and not str(value).startswith("#")
        if outside or re.search(r"url\s*\(\s*['\"]?\s*[^#'\"\s)]", str(value), re.IGNORECASE):
            raise _refused(element, f"must not point outside the file ({name})", str(value)[:60])


def _hidden(element: etree._Element) -> bool:
    return any(_name(above) in _UNDRAWN for above in element.iterancestors())


def _place(shape: etree._Element, root: etree._Element) -> Affine:
    """From the shape's own units to mm on the drawing."""
    place = Affine.scaled(_scale(root))
    for element in [*reversed(list(shape.iterancestors())), shape]:
        try:
            place = place.after(transform_of(element.get("transform", "")))
        except BadValue as error:
            raise _refused(element, error.rule, error.seen) from None
    return place


def _scale(root: etree._Element) -> float:
    """mm per user unit: by width and viewBox; without a viewBox a unit is 1/96 inch."""
    box = [float(one) for one in re.findall(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?", root.get("viewBox", ""))]
    if not box:
        return _MM[""]
    if len(box) != 4 or not (0.0 < box[2] < 1e9 and 0.0 < box[3] < 1e9):
        raise _refused(root, "its viewBox must be four numbers with a width and a height", root.get("viewBox"))
    found = []
    for key, size in (("width", box[2]), ("height", box[3])):
        match = _LENGTH.match(root.get(key, ""))
        if match and match[2] in _MM and float(match[1]) > 0.0:
            found.append(float(match[1]) * _MM[match[2]] / size)
    if not found:
        raise _refused(root, "must say how large it is: width and height in mm", root.get("width") or "no width")
    return min(found)


def _centred(shape: etree._Element, points: list[complex]) -> Ring:
    """The outline with y upwards, about the middle of its box, its first point not repeated."""
    ring = [points[0]]
    ring += [point for before, point in pairwise(points) if abs(point - before) > _DETAIL]
    if len(ring) > 1 and abs(ring[0] - ring[-1]) <= _DETAIL:
        ring.pop()
    xs, ys = [one.real for one in ring], [-one.imag for one in ring]
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    if not (0.0 < wide <= _LARGEST and 0.0 < high <= _LARGEST):
        raise _refused(shape, f"its outline must be at most {_LARGEST / 10:g} cm across", f"{wide:.6g} x {high:.6g} mm")
    middle = ((max(xs) + min(xs)) / 2.0, (max(ys) + min(ys)) / 2.0)
    return tuple((round(x - middle[0], 6), round(y - middle[1], 6)) for x, y in zip(xs, ys, strict=True))
