"""What is handed on names no machine, no package registry, and carries no large file."""

import re
from pathlib import Path

import pytest

from tests.architecture.source import ROOT, project_files

LARGEST_KIB = 600
# Put together here so that this file does not contain what it looks for.
_FOLDERS = "|".join(f"/{name}/" for name in ("work", "root", "farm"))
_HOMES = "|".join(f"/{name}/[a-z]" for name in ("home", "Users"))
_HOSTS = "|".join(
    r"\.".join(steps)
    for steps in (
        ("pypi", "org"),
        ("pythonhosted", "org"),
        ("npmjs", "org"),
        ("npmjs", "com"),
        ("deb", "debian", "org"),
        ("crates", "io"),
        ("proxy", "golang", "org"),
    )
)
FOREIGN = re.compile(f"{_FOLDERS}|{_HOMES}|{_HOSTS}")


def foreign(path, data):
    """Lines of a text file that name a machine's folder or a registry; a binary file has none."""
    if b"\0" in data:
        return []
    lines = data.decode("utf-8", errors="replace").splitlines()
    return [f"{path}:{number}: {line.strip()[:80]}" for number, line in enumerate(lines, 1) if FOREIGN.search(line)]


def test_no_file_names_a_folder_of_one_machine_or_a_registry():
    assert [fault for path in project_files() for fault in foreign(path.relative_to(ROOT), path.read_bytes())] == []


def test_no_file_is_larger_than_the_limit():
    sizes = {str(path.relative_to(ROOT)): path.stat().st_size / 1024 for path in project_files()}
    assert {name: f"{kib:.0f} KiB" for name, kib in sizes.items() if kib > LARGEST_KIB} == {}


@pytest.mark.parametrize("name", ["runtime.txt", "test.txt"])
def test_every_pinned_requirement_has_a_hash_and_no_address(name):
    text = (ROOT / "requirements" / name).read_text(encoding="utf-8")
    pins = [pin for pin in re.split(r"^(?=\w)", text, flags=re.MULTILINE) if pin[:1].isalnum()]
    assert len(pins) > 20
    assert [pin.split("\n")[0] for pin in pins if "==" not in pin or "--hash=sha256:" not in pin] == []
    assert "://" not in text
    assert "-index-url" not in text


@pytest.mark.parametrize("seen", ["see /{}/main/x".format("work"), "https://{}.org/simple".format("pypi")])
def test_the_search_finds_what_it_looks_for(seen):
    assert foreign(Path("note.md"), seen.encode()) == [f"note.md:1: {seen}"]


def test_the_search_lets_ordinary_text_pass():
    assert foreign(Path("note.md"), b"the side seam works / is square at the root of the curve") == []
