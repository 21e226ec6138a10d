"""Nothing that befalls the file loses a change or leaves one half done: kills, two writers, damage, a newer program."""

import json
import sqlite3
import struct
import subprocess
import sys
from contextlib import closing
from datetime import date, timedelta
from pathlib import Path

import pytest

from galloon.errors import BadInput, CannotWrite
from galloon.store import add, back_up, backups, list_bookings, list_things, open_shelf
from galloon.store.backup import back_up_daily
from galloon.store.migrate import Migration, migrations
from tests.support.shelf_lives import begin, cloth, faults

ROOT = Path(__file__).parents[3]
LIVES = ROOT / "tests" / "support" / "shelf_lives.py"


@pytest.fixture
def path(tmp_path):
    return tmp_path / "shelf.sqlite"


def life(*args):
    return [sys.executable, str(LIVES), *map(str, args)]


def killed(path, count):
    done = subprocess.run(life("kill", path, count, 11), capture_output=True, text=True, cwd=ROOT, timeout=300)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def test_a_writer_killed_at_two_hundred_random_moments_leaves_no_booking_half_done(path):
    result = killed(path, 200)
    assert result["faults"] == []
    assert result["booked"] >= 50, "the kills must come amid bookings to show anything"


def test_two_processes_at_once_lose_none_of_each_others_changes(path):
    begin(path)
    both = [
        subprocess.Popen(life("write", path, name, 15), stderr=subprocess.PIPE, cwd=ROOT) for name in ("one", "two")
    ]
    said = [one.communicate(timeout=120)[1].decode() for one in both]
    assert [one.returncode for one in both] == [0, 0], said
    with open_shelf(path) as shelf:
        names = {thing.name for thing in list_things(shelf, "cloth")}
        assert len(list_bookings(shelf)) == 30
    assert names >= {f"{name} {number}" for name in ("one", "two") for number in range(15)}
    assert faults(path) == []


def test_two_processes_that_make_the_file_at_once_both_find_it_whole(path):
    code = "import sys; from pathlib import Path; from galloon.store import open_shelf\n"
    code += (
        "with open_shelf(Path(sys.argv[1])) as shelf: assert shelf.rows('SELECT max(number) FROM migration')[0][0] == 3"
    )
    both = [subprocess.Popen([sys.executable, "-c", code, str(path)], stderr=subprocess.PIPE) for _ in range(4)]
    said = [one.communicate(timeout=60)[1].decode() for one in both]
    assert [one.returncode for one in both] == [0] * 4, said


def set_version(path, number):
    with closing(sqlite3.connect(path)) as connection:
        connection.execute(f"PRAGMA user_version = {number}")


def contents(folder):
    return {one.name: one.read_bytes() for one in folder.iterdir() if one.is_file()}


def test_a_file_of_a_newer_program_is_refused_and_not_a_byte_of_it_changed(path):
    begin(path)
    set_version(path, 99)
    before = contents(path.parent)
    with pytest.raises(BadInput, match="written by a newer galloon"), open_shelf(path):
        pass
    assert contents(path.parent) == before


def test_a_newer_file_is_refused_too_while_its_mark_stands_in_the_log_only(path):
    begin(path)
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("PRAGMA user_version = 99")
        before = path.read_bytes()
        assert struct.unpack(">I", before[60:64]) != (99,), "the log must be what holds the mark"
        with pytest.raises(BadInput, match="written by a newer galloon"), open_shelf(path):
            pass
        assert path.read_bytes() == before


def test_each_migration_has_its_record_and_one_that_fails_leaves_the_file_as_it_was(path):
    begin(path)
    steps = (
        *migrations(),
        Migration(
            len(migrations()) + 1, "half", "CREATE TABLE extra (a INTEGER) STRICT; INSERT INTO nowhere VALUES (1);"
        ),
    )
    with pytest.raises(CannotWrite, match="no such table"), open_shelf(path, steps=steps):
        pass
    with open_shelf(path) as shelf:
        assert [row["number"] for row in shelf.rows("SELECT number FROM migration")] == [1, 2, 3]
        assert shelf.rows("SELECT 1 FROM sqlite_master WHERE name = 'extra'") == []


def test_an_older_file_is_brought_up_to_date_with_its_things(path):
    with open_shelf(path, steps=migrations()[:1]) as shelf:
        add(shelf, "cloth", "tern", cloth())
    with open_shelf(path) as shelf:
        assert [thing.name for thing in list_things(shelf)] == ["tern"]
        assert list_bookings(shelf) == []


@pytest.mark.parametrize("content", [b"not a shelf at all", b"SQLite format 3\0" + b"\xff" * 4000, b"\0" * 5000])
def test_a_file_that_is_no_shelf_is_refused_and_left_alone(path, content):
    path.write_bytes(content)
    with pytest.raises((BadInput, CannotWrite), match="damaged or is no shelf"), open_shelf(path):
        pass
    assert path.read_bytes() == content


def test_a_database_of_another_program_is_refused_and_left_alone(path):
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE notes (text TEXT)")
    before = path.read_bytes()
    with pytest.raises(BadInput, match="belongs to another program"), open_shelf(path):
        pass
    assert path.read_bytes() == before


def test_a_shelf_with_damaged_pages_says_so_names_a_backup_and_keeps_the_good_copies(path):
    begin(path)
    with open_shelf(path) as shelf:
        kept = back_up(shelf.connection, path, today=date(2020, 1, 1))
    good = kept.read_bytes()
    raw = bytearray(path.read_bytes())
    raw[4096:] = b"\xa5" * (len(raw) - 4096)
    path.write_bytes(raw)
    with pytest.raises(BadInput, match=r"damaged(.|\n)*-backups"), open_shelf(path) as shelf:
        list_things(shelf)
    assert kept.read_bytes() == good


def test_a_shelf_that_another_program_holds_is_told_and_nothing_is_written(path):
    begin(path)
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with open_shelf(path, patience=0.05) as shelf:
            with pytest.raises(CannotWrite, match="another program is writing"):
                add(shelf, "cloth", "late", cloth())
            assert len(list_things(shelf)) == 2


def test_a_full_disk_is_told_and_the_change_is_not_half_done(path):
    begin(path)
    with open_shelf(path) as shelf:
        pages = shelf.rows("PRAGMA page_count")[0][0]
        shelf.rows(f"PRAGMA max_page_count = {pages}")
        before = len(list_things(shelf))
        ring = [[x, y] for y in (0, 900) for x in (range(0, 4000) if y == 0 else range(3999, -1, -4000))]
        with pytest.raises(CannotWrite, match="the disk is full"):
            add(shelf, "leftover", "big", {"cloth": "tern", "outline": [*ring, [0, 900]]})
        assert len(list_things(shelf)) == before
    assert faults(path) == []


def test_a_place_that_cannot_be_written_is_told(tmp_path):
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(CannotWrite), open_shelf(tmp_path / "file" / "shelf.sqlite"):
        pass
    with pytest.raises(CannotWrite, match="a folder"), open_shelf(tmp_path):
        pass


def test_the_shelf_and_its_copies_are_readable_by_their_owner_only(path):
    begin(path)
    with open_shelf(path) as shelf:
        copy = back_up(shelf.connection, path)
    assert [oct(one.stat().st_mode & 0o077) for one in (path, copy, copy.parent)] == ["0o0"] * 3


def test_a_copy_is_made_once_a_day_and_the_newest_seven_are_kept(path):
    begin(path)
    days = [date(2030, 1, 1) + timedelta(days=n) for n in range(10)]
    with open_shelf(path) as shelf:
        for one in backups(path):
            one.unlink()
        made = [back_up_daily(shelf.connection, path, today=day) for day in days]
        assert back_up_daily(shelf.connection, path, today=days[-1]) is None
    assert all(made)
    assert [one.stem for one in backups(path)] == [str(day) for day in days[3:]]


def test_a_copy_is_a_shelf_that_can_take_the_place_of_the_lost_one(path, tmp_path):
    begin(path)
    with open_shelf(path) as shelf:
        copy = back_up(shelf.connection, path)
    elsewhere = tmp_path / "new" / "shelf.sqlite"
    elsewhere.parent.mkdir()
    elsewhere.write_bytes(copy.read_bytes())
    assert faults(elsewhere) == []
