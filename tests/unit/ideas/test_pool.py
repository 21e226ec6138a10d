"""Work is spread over processes, and its answers come back by the place of their items."""

import os

from galloon.ideas.pool import Spread


def double(number):
    return 2 * number


def process(number):
    return os.getpid()


def never():
    return False


def test_answers_come_back_by_place_and_what_is_done_is_told():
    told = []
    done = Spread(double, range(50), told=told.append, cancelled=never).run(processes=2, chunk=4)
    assert done == {place: 2 * place for place in range(50)}
    assert told[-1] == 50
    assert told == sorted(told)


def test_one_process_does_it_all_itself():
    done = Spread(process, range(9), told=lambda _: None, cancelled=never).run(processes=1, chunk=2)
    assert set(done.values()) == {os.getpid()}


def test_cancelled_it_gives_what_it_has():
    told = []
    done = Spread(double, range(50), told=told.append, cancelled=lambda: len(told) >= 5).run(processes=1, chunk=4)
    assert done == {place: 2 * place for place in range(5)}


def test_no_items_are_no_answers():
    assert Spread(double, [], told=lambda _: None, cancelled=never).run(processes=2, chunk=4) == {}
