"""``galloon shelf`` and ``galloon cut`` as a maker types them: words, exit statuses, one message per fault."""

import json
import os
import re
import resource
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest
from pypdf import PdfReader

DEMO = Path("examples/heron-hipster.toml").resolve()
SVG = """\
<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="300mm" viewBox="0 0 400 300">
  <g id="front">
    <path id="waist" d="M 20 20 L 220 20"/>
    <path id="side" d="M 220 20 L 220 170"/>
    <path id="leg" d="M 220 170 C 150 160 90 120 20 150"/>
    <path id="centre" d="M 20 150 L 20 20"/>
  </g>
  <path id="gusset" d="M 260 40 H 330 V 120 H 260 Z"/>
</svg>
"""


def galloon(*args, cwd=None, limit=None):
    def small():
        resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))

    return subprocess.run(
        [sys.executable, "-m", "galloon", *map(str, args)],
        capture_output=True,
        text=True,
        cwd=cwd,
        check=False,
        preexec_fn=small if limit is not None else None,
        # A limit on file sizes must not meet the interpreter's own compiled files.
        env={**os.environ, "PYTHONDONTWRITEBYTECODE": "1"},
    )


class Maker:
    """Types at a shelf of her own."""

    def __init__(self, folder):
        self.folder, self.file = folder, folder / "shelf.sqlite"

    def shelf(self, *args, file=None, limit=None):
        return galloon("shelf", "--shelf", file or self.file, *args, cwd=self.folder, limit=limit)

    def did(self, *args, file=None):
        done = self.shelf(*args, file=file)
        assert done.returncode == 0, done.stderr
        return done.stdout


@pytest.fixture
def maker(tmp_path):
    return Maker(tmp_path)


@pytest.fixture(scope="module")
def stocked(tmp_path_factory):
    """Everything of the demo on a shelf, a brief that names it, one cut booked, the pattern kept."""
    maker = Maker(tmp_path_factory.mktemp("stocked"))
    maker.did("add", "wearer", "Imke", "--from", DEMO)
    for name in ("heron", "mesh", "lining"):
        maker.did("add", "lace" if name == "heron" else "cloth", name, "--from", DEMO)
    text = DEMO.read_text()
    text = re.sub(r"\[wearer\].*?(?=\[cloth\.heron\])", "", text, count=1, flags=re.S)
    text = re.sub(r"\[cloth\.heron\].*?(?=\[panels\])", "", text, count=1, flags=re.S)
    names = 'wearer = "Imke"\n[cloth]\nheron = "shelf"\nmesh = "shelf"\nlining = "shelf"\n'
    head, rest = text.split("[panels]", 1)
    (maker.folder / "named.toml").write_text(f"{head}\n{names}\n[panels]{rest}")
    cut = galloon("cut", "named.toml", "--shelf", maker.file, "--anyway", cwd=maker.folder)
    return maker, cut


def on_hand(maker, cloth):
    found = re.search(r"on_hand = ([\d.]+)", maker.did("show", "cloth", cloth))
    assert found is not None
    return float(found[1])


def test_a_cut_takes_the_lengths_puts_leftovers_back_and_undo_gives_all_back(stocked):
    maker, cut = stocked
    assert cut.returncode in (0, 3), cut.stderr
    assert "Booked as cut 1." in cut.stdout
    assert "heron: took" in cut.stdout
    assert on_hand(maker, "heron") < 1500.0
    left = maker.did("list", "leftover")
    names = re.findall(r"Leftover put on the shelf: (.+)\.", cut.stdout)
    assert names
    assert all(name in left for name in names)
    assert "heron" in maker.did("cuts")
    assert "Undone: cut 1" in maker.did("undo")
    assert on_hand(maker, "heron") == 1500.0
    assert maker.did("list", "leftover").startswith("Nothing there yet.")
    assert "undone" in maker.did("cuts")
    again = maker.shelf("undo")
    assert again.returncode == 2
    assert again.stdout == ""
    assert len(again.stderr.splitlines()) <= 3


def test_a_version_is_kept_by_a_cut_printed_again_and_removed_only_if_nothing_was_cut_from_it(stocked):
    maker, _ = stocked
    assert "Heron hipster" in maker.did("versions")
    told = maker.did("print", "Heron hipster", "--out", "again")
    assert "the cut outlines differ" not in told
    assert {"pattern.pdf", "pattern.svg", "guide.pdf"} <= {one.name for one in (maker.folder / "again").iterdir()}
    refused = maker.shelf("remove-version", "Heron hipster", 1)
    assert refused.returncode == 2
    assert "something was cut from it" in refused.stderr
    text = DEMO.read_text().replace('title = "Heron hipster"', 'title = "Only kept"')
    (maker.folder / "only.toml").write_text(text)
    assert "Kept: Only kept, version 1." in maker.did("keep", "only.toml")
    assert "Off the shelf: Only kept, version 1." in maker.did("remove-version", "Only kept", 1)
    assert "Only kept" not in maker.did("versions")
    assert maker.shelf("remove-version", "Only kept", 1).returncode == 2
    assert maker.shelf("print", "Only kept").returncode == 2


def test_what_is_exported_is_taken_in_on_another_machine(stocked, tmp_path):
    maker, _ = stocked
    other = Maker(tmp_path)
    assert "keep it to yourself" in maker.did("export", "all.json")
    assert json.loads((maker.folder / "all.json").read_text())
    assert "Taken in:" in other.did("import", maker.folder / "all.json")
    assert other.did("list") == maker.did("list")
    assert other.did("versions") == maker.did("versions")
    assert other.did("cuts") == maker.did("cuts")
    assert "Taken in: 0 new things." in other.did("import", maker.folder / "all.json")
    other.did("import", maker.folder / "all.json", "--replace")
    assert other.did("list") == maker.did("list")


def test_things_are_added_listed_shown_changed_and_removed(maker):
    assert maker.did("list").startswith("Nothing there yet.")
    maker.did("add", "elastic", "soft", "width=1", "stretch=80", "form=picot")
    maker.did("add", "cloth", "mesh", "kind=mesh", "width=60 in", "stretch_width=70", "stretch_length=50")
    assert "1524 mm wide" in maker.did("list", "cloth") or "152.4 cm wide" in maker.did("list", "cloth")
    assert "length not known" in maker.did("list", "cloth")
    maker.did("change", "cloth", "mesh", "on_hand=60")
    assert "on_hand = 600" in maker.did("show", "cloth", "mesh")
    maker.did("change", "cloth", "mesh", "on_hand=")
    assert "on_hand" not in maker.did("show", "cloth", "mesh")
    maker.did("remove", "cloth", "mesh")
    assert "mesh" not in maker.did("list")
    assert maker.shelf("show", "cloth", "mesh").returncode == 2
    assert maker.did("backup").strip().endswith(".sqlite")


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("add", "cloth", "mesh", "kind=mesh", "width=0", "stretch_width=70"), "width"),
        (("add", "cloth", "mesh", "kind=mesh", "width=150", "on_hand=-1"), "on_hand"),
        (("add", "cloth", "mesh", "kind=mesh", "width=nan"), "width"),
        (("add", "cloth", "mesh", "mesh"), "KEY=VALUE"),
        (("add", "wearer", "Imke", "waist=74"), "hip"),
        (("add", "leftover", "x", "cloth=none", "outline=[[0,0],[9,0],[9,9]]"), "none"),
        (("add", "drawing", "x", "--from", "missing.svg"), "missing.svg"),
        (("change", "cloth", "gone", "width=3"), "gone"),
        (("remove", "cloth", "gone"), "gone"),
        (("undo",), "finds no booking to undo"),
        (("print", "x", "--drawing"), "x"),
        (("print", "x", "--drawing", "--version", "1"), "--version"),
        (("import", "missing.json"), "missing.json"),
    ],
)
def test_bad_input_is_told_in_one_message_and_changes_nothing(maker, words, says):
    done = maker.shelf(*words)
    assert done.returncode == 2, done.stdout
    assert says in done.stderr
    assert "Traceback" not in done.stderr
    assert maker.did("list").startswith("Nothing there yet.")


@pytest.mark.parametrize(
    ("outline", "says"),
    [
        ("[[0,0],[30,30],[30,0],[0,30]]", "cross"),
        ("[[0,0],[0,0],[0,0]]", "outline"),
        ("[[0,0],[30,0],[60,0]]", "outline"),
    ],
)
def test_a_leftover_that_crosses_itself_or_holds_no_area_is_refused(maker, outline, says):
    maker.did("add", "cloth", "mesh", "kind=mesh", "width=150", "stretch_width=70", "stretch_length=50")
    done = maker.shelf("add", "leftover", "rest", "cloth=mesh", f"outline={outline}")
    assert done.returncode == 2
    assert says in done.stderr
    assert maker.did("list", "leftover").startswith("Nothing there yet.")


def test_an_outline_drawn_elsewhere_comes_back_true_to_size_with_its_edges_named(maker):
    (maker.folder / "old.svg").write_text(SVG)
    maker.did("add", "drawing", "old brief", "--from", "old.svg")
    assert "front" in maker.did("list", "drawing")
    assert "written to" in maker.did("print", "old brief", "--drawing", "--out", "out", "--paper", "a3")
    names = {one.name for one in (maker.folder / "out").iterdir()}
    assert {"pattern.pdf", "pattern-full.pdf", "pattern.svg", "pattern.dxf"} <= names
    words = "".join(page.extract_text() for page in PdfReader(maker.folder / "out" / "pattern-full.pdf").pages)
    for name in ("waist", "side", "leg", "centre", "gusset", "200.0 × 150.0 mm", "70.0 × 80.0 mm"):
        assert name in words
    drawn = (maker.folder / "out" / "pattern.svg").read_text()
    assert re.search(r'width="[\d.]+mm"', drawn)
    first = (maker.folder / "out" / "pattern.pdf").read_bytes()
    maker.did("print", "old brief", "--drawing", "--out", "out", "--paper", "a3")
    assert (maker.folder / "out" / "pattern.pdf").read_bytes() == first


def test_two_at_once_lose_nothing(maker):
    maker.did("list")
    typed = ("kind=mesh", "width=150", "stretch_width=70", "stretch_length=50")
    told = [
        subprocess.Popen(
            [sys.executable, "-m", "galloon", "shelf", "--shelf", maker.file, "add", "cloth", f"mesh {n}", *typed],
            stdout=subprocess.DEVNULL,
        )
        for n in range(4)
    ]
    assert [one.wait() for one in told] == [0, 0, 0, 0]
    listed = maker.did("list", "cloth")
    assert all(f"mesh {n}" in listed for n in range(4))


def test_a_newer_shelf_is_refused_untouched(maker):
    maker.did("list")
    with closing(sqlite3.connect(maker.file)) as connection:
        connection.execute("PRAGMA user_version = 99")
    before = maker.file.read_bytes()
    done = maker.shelf("list")
    assert done.returncode == 2
    assert "newer" in done.stderr
    assert maker.file.read_bytes() == before


def test_a_damaged_shelf_is_told(maker):
    maker.file.write_bytes(b"no shelf at all" * 400)
    done = maker.shelf("list")
    assert done.returncode == 2
    assert "damaged" in done.stderr
    assert maker.file.read_bytes() == b"no shelf at all" * 400


@pytest.mark.slow  # waits its full patience
def test_a_shelf_that_another_program_holds_is_told(maker):
    maker.did("list")
    with closing(sqlite3.connect(maker.file, isolation_level=None)) as held:
        held.execute("BEGIN IMMEDIATE")
        done = maker.shelf("add", "elastic", "soft", "width=1", "stretch=80", "form=picot")
        held.execute("ROLLBACK")
    assert done.returncode == 2
    assert "another program is writing to it" in done.stderr
    assert maker.did("list").startswith("Nothing there yet.")


def test_a_shelf_that_cannot_grow_is_told_and_stays_whole(maker):
    maker.did("list")
    ring = ",".join(f"[{x / 51.3:.15f},{90 + x * (4900 - x) / 1e6:.15f}]" for x in range(4900, 0, -1))
    (maker.folder / "big.toml").write_text(f'units = "cm"\ncloth = "mesh"\noutline = [{ring},[0,0],[90,0]]\n')
    maker.did("add", "cloth", "mesh", "kind=mesh", "width=150", "stretch_width=70", "stretch_length=50")
    done = maker.shelf("add", "leftover", "big", "--from", "big.toml", limit=100_000)
    assert done.returncode == 2, done.stdout
    assert "being full or at fault" in done.stderr
    assert "Traceback" not in done.stderr
    assert "shelf.sqlite" in done.stderr
    assert "big" not in maker.did("list")
    assert maker.shelf("list").returncode == 0
