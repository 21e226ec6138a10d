"""Lives of a shelf for the tests: processes that write to it, are killed or write at once, and what must hold after.

Run as a program: ``python shelf_lives.py kill FILE COUNT SEED`` or ``python shelf_lives.py write FILE NAME COUNT``.
"""

import json
import os
import random
import signal
import sqlite3
import sys
import time
from pathlib import Path

from galloon.cutting import Plan
from galloon.cutting.model import Placed
from galloon.store import Take, add, book_cut, change, list_bookings, list_things, open_shelf, remove, undo_last

#: Length (mm) of each cloth before anything is cut.
WHOLE = 100_000.0
CLOTHS = ("tern", "wren")


def cloth(on_hand=WHOLE):
    """A mesh of an imaginary workroom."""
    return {"kind": "mesh", "width": 1500, "stretch_width": 60, "stretch_length": 50, "on_hand": on_hand}


def plan(length=400.0, width=1500.0):
    """One piece in a corner; most of the cloth is left beside it."""
    corner = ((0.0, 0.0), (300.0, 0.0), (300.0, 200.0), (0.0, 200.0))
    return Plan(width, length, 100.0, False, None, 0.1, (Placed("front", 1, False, "", False, corner),))


def begin(path):
    """A shelf with its cloths."""
    with open_shelf(path) as shelf:
        for name in CLOTHS:
            add(shelf, "cloth", name, cloth())


def write_on(path, seed):
    """Writes without end: books, undoes, changes, adds, removes, opens and closes."""
    chance = random.Random(seed)
    while True:
        with open_shelf(path) as shelf:
            for step in range(chance.randrange(1, 6)):
                if chance.random() < 0.6:
                    book_cut(shelf, "a cut", [Take(name, chance.uniform(1.0, 50.0), plan()) for name in CLOTHS])
                elif any(one.undone is None for one in list_bookings(shelf)):
                    undo_last(shelf)
                name = f"{os.getpid()} {step} {chance.random()}"
                add(shelf, "cloth", name, cloth())
                change(shelf, "cloth", name, {"price": 3})
                remove(shelf, "cloth", name)


def faults(path):
    """What is wrong with the shelf at ``path``: damage, a booking half done."""
    with open_shelf(path) as shelf:
        found = [row[0] for row in shelf.rows("PRAGMA integrity_check") if row[0] != "ok"]
        found += [str(tuple(row)) for row in shelf.rows("PRAGMA foreign_key_check")]
        things = {(one.kind, one.name): one.data for one in list_things(shelf)}
        bookings = list_bookings(shelf)
    standing = [one for one in bookings if one.undone is None]
    for name in CLOTHS:
        gone = sum(taking.taken for one in standing for taking in one.takings if taking.cloth == name)
        if abs(things["cloth", name]["on_hand"] + gone - WHOLE) > 1e-3:
            found.append(f"{name}: {things['cloth', name]['on_hand']} on hand and {gone} booked are not {WHOLE}")
    for one in bookings:
        if {taking.cloth for taking in one.takings} != set(CLOTHS) or len(one.leftovers) != len(CLOTHS):
            found.append(f"booking {one.number} is half done")
    kept = {name for kind, name in things if kind == "leftover"}
    if kept != {name for one in standing for name in one.leftovers}:
        found.append("the leftovers are not those of the bookings that stand")
    return found


def kill_at_random(path, count, seed):
    """Kills a writing process ``count`` times at random moments; the faults found, and how many bookings there were."""
    chance, found, booked = random.Random(seed), [], 0
    for number in range(count):
        if number % 20 == 0:
            _clear(path)
            begin(path)
        if number % 5 == 0:
            for copy in path.with_name(f"{path.name}-backups").glob("*"):
                copy.unlink()
        child = os.fork()
        if child == 0:
            write_on(path, chance.random())
        time.sleep(chance.uniform(0.002, 0.08))
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        found += [f"kill {number}: {fault}" for fault in faults(path)]
        if number % 20 == 19 or number == count - 1:
            with open_shelf(path) as shelf:
                booked += len(list_bookings(shelf))
    return {"faults": found, "booked": booked}


def _clear(path):
    for old in path.parent.glob(f"{path.name}*"):
        if old.is_file():
            old.unlink()


def write_some(path, name, count):
    """Books, adds and changes ``count`` times."""
    for number in range(count):
        with open_shelf(path) as shelf:
            add(shelf, "cloth", f"{name} {number}", cloth())
            book_cut(shelf, f"{name} {number}", [Take(one, 10.0, plan()) for one in CLOTHS])


def main(what, path, *rest):
    """The program."""
    if what == "kill":
        print(json.dumps(kill_at_random(Path(path), int(rest[0]), int(rest[1]))))
    else:
        write_some(Path(path), rest[0], int(rest[1]))


if __name__ == "__main__":
    try:
        main(*sys.argv[1:])
    except sqlite3.Error as error:
        sys.exit(f"an error of SQLite itself came through: {error!r}")
