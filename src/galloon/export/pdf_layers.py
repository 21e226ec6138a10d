"""The parts of a PDF that are put in after the pages are drawn: layers, pictures, page names, print settings."""

from __future__ import annotations

import io
import zlib
from collections.abc import Collection
from typing import TYPE_CHECKING

from galloon.drawing import Drawing, Picture

if TYPE_CHECKING:
    import pikepdf


class PageResources:
    """Short names, used in page contents, for the layers, opacities and pictures of one document."""

    def __init__(self, layers: tuple[str, ...]) -> None:
        self.layers = {name: f"L{index}" for index, name in enumerate(layers)}
        self.opacities: dict[float, str] = {}
        self.pictures: dict[Picture, str] = {}

    def layer(self, name: str) -> str:
        """The short name of a layer."""
        return self.layers[name]

    def opacity(self, opacity: float) -> str:
        """The short name of an opacity."""
        return self.opacities.setdefault(opacity, f"A{len(self.opacities)}")

    def picture(self, picture: Picture) -> str:
        """The short name of a picture."""
        return self.pictures.setdefault(picture, f"P{len(self.pictures)}")


def finish(raw: bytes, drawing: Drawing, resources: PageResources, *, hidden: Collection[str]) -> bytes:
    """The document with its layers, pictures, page names and "print at actual size" put in; repeatable bytes."""
    import pikepdf

    with pikepdf.open(io.BytesIO(raw)) as pdf:
        groups = _layers(pdf, resources.layers, hidden)
        shared = {"/Properties": groups, "/ExtGState": _opacities(resources), "/XObject": _pictures(pdf, resources)}
        for page in pdf.pages:
            for key, entries in shared.items():
                if entries:
                    page.obj.Resources[key] = pikepdf.Dictionary(entries)
        _page_names(pdf, [page.name for page in drawing.pages])
        pdf.Root.ViewerPreferences = pikepdf.Dictionary(PrintScaling=pikepdf.Name("/None"), DisplayDocTitle=True)
        out = io.BytesIO()
        modes = pikepdf.ObjectStreamMode.generate
        pdf.save(out, deterministic_id=True, compress_streams=True, object_stream_mode=modes)
    return out.getvalue()


def _layers(pdf: pikepdf.Pdf, names: dict[str, str], hidden: Collection[str]) -> dict[str, pikepdf.Object]:
    from pikepdf import Array, Dictionary, Name, String

    groups = {
        short: pdf.make_indirect(Dictionary(Type=Name.OCG, Name=String(name or "drawing")))
        for name, short in names.items()
    }
    off = [groups[short] for name, short in names.items() if name in hidden]
    shown = [group for short, group in groups.items() if group not in off]
    every = list(groups.values())
    defaults = Dictionary(Name=String("Layers"), Order=Array(every), ON=Array(shown), OFF=Array(off))
    if every:
        pdf.Root.OCProperties = Dictionary(OCGs=Array(every), D=defaults)
    return {f"/{short}": group for short, group in groups.items()}


def _opacities(resources: PageResources) -> dict[str, pikepdf.Object]:
    from pikepdf import Dictionary, Name

    return {
        f"/{short}": Dictionary(Type=Name.ExtGState, ca=round(opacity, 4), CA=round(opacity, 4))
        for opacity, short in resources.opacities.items()
    }


def _pictures(pdf: pikepdf.Pdf, resources: PageResources) -> dict[str, pikepdf.Object]:
    from pikepdf import Name, Stream

    found: dict[str, pikepdf.Object] = {}
    for picture, short in resources.pictures.items():
        stream = Stream(pdf, zlib.compress(picture.samples))
        stream.Type, stream.Subtype, stream.Filter = Name.XObject, Name.Image, Name.FlateDecode
        stream.Width, stream.Height = picture.columns, picture.rows
        stream.ColorSpace, stream.BitsPerComponent = Name.DeviceRGB, 8
        found[f"/{short}"] = pdf.make_indirect(stream)
    return found


def _page_names(pdf: pikepdf.Pdf, names: list[str]) -> None:
    from pikepdf import Array, Dictionary, String

    labels = Array()
    for index, name in enumerate(names):
        labels.append(index)
        labels.append(Dictionary(P=String(name)))
    pdf.Root.PageLabels = Dictionary(Nums=labels)
