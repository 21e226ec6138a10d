"""A thin writer of CP-SAT models in the solver's public text form, and one call that solves them.

The solver's usual Python front end loads a table library and costs two seconds to import; its text form does not.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

Terms = Sequence[tuple[int, int]]
_FAR = 2**62


@dataclass
class Model:
    """A model being written. Variables are numbers; ``-v - 1`` is the negation of a yes-or-no variable v."""

    _variables: list[str] = field(default_factory=list)
    _constraints: list[str] = field(default_factory=list)
    _objective: str = ""
    _hint: str = ""

    def __len__(self) -> int:
        return len(self._variables)

    def number(self, low: int, high: int) -> int:
        """A new whole-number variable from low to high."""
        self._variables.append(f"variables {{ domain: [{low}, {high}] }}")
        return len(self._variables) - 1

    def yes_no(self) -> int:
        """A new yes-or-no variable."""
        return self.number(0, 1)

    def linear(self, terms: Terms, low: int | None, high: int | None, when: Sequence[int] = ()) -> None:
        """Sum of coefficient * variable lies from low to high, if every literal in ``when`` holds."""
        names, factors = _list(var for var, _ in terms), _list(factor for _, factor in terms)
        domain = f"[{-_FAR if low is None else low}, {_FAR if high is None else high}]"
        self._add(when, f"linear {{ vars: {names} coeffs: {factors} domain: {domain} }}")

    def exactly_one(self, literals: Sequence[int]) -> None:
        """Exactly one of the literals holds."""
        self._add((), f"exactly_one {{ literals: {_list(literals)} }}")

    def at_most_one(self, literals: Sequence[int]) -> None:
        """At most one of the literals holds."""
        self._add((), f"at_most_one {{ literals: {_list(literals)} }}")

    def any_of(self, literals: Sequence[int]) -> None:
        """At least one of the literals holds."""
        self._add((), f"bool_or {{ literals: {_list(literals)} }}")

    def circuit(self, arcs: Sequence[tuple[int, int, int]]) -> None:
        """The chosen arcs (tail, head, literal) form one circuit through every node without a chosen self-loop."""
        tails, heads = _list(a for a, _, _ in arcs), _list(b for _, b, _ in arcs)
        self._add((), f"circuit {{ tails: {tails} heads: {heads} literals: {_list(c for _, _, c in arcs)} }}")

    def minimise(self, terms: Terms) -> None:
        """Sets the objective."""
        names, factors = _list(var for var, _ in terms), _list(factor for _, factor in terms)
        self._objective = f"objective {{ vars: {names} coeffs: {factors} }}"

    def hint(self, values: Mapping[int, int]) -> None:
        """Values to try first."""
        self._hint = f"solution_hint {{ vars: {_list(values)} values: {_list(values.values())} }}"

    def text(self) -> str:
        """The whole model."""
        return "\n".join([*self._variables, *self._constraints, self._objective, self._hint])

    def _add(self, when: Sequence[int], body: str) -> None:
        enforced = f"enforcement_literal: {_list(when)} " if when else ""
        self._constraints.append(f"constraints {{ {enforced}{body} }}")


def _list(values: Any) -> str:
    return f"[{', '.join(map(str, values))}]"


@dataclass(frozen=True)
class Answer:
    """What the solver found: values of all variables (empty: no solution), the proven bound, and if it is optimal."""

    values: tuple[int, ...]
    bound: float
    optimal: bool
    impossible: bool


class Solver:
    """One solve that another thread may stop."""

    def __init__(self) -> None:
        from ortools.sat.python import cp_model_helper

        self._cmh: Any = cp_model_helper
        self._wrapper: Any = cp_model_helper.SolveWrapper()

    def stop(self) -> None:
        """Ends the search; the best answer so far is kept."""
        self._wrapper.stop_search()

    def solve(
        self,
        model: Model,
        limits: str,
        on_bound: Callable[[float], None] | None = None,
        on_values: Callable[[tuple[int, ...]], None] | None = None,
    ) -> Answer:
        """Solves under ``limits`` (solver parameters as text); the callbacks hear of every better bound and answer."""
        cmh = self._cmh
        proto, parameters = cmh.CpModelProto(), cmh.SatParameters()
        if not proto.parse_text_format(model.text()) or not parameters.parse_text_format(limits):
            raise RuntimeError("the solver could not read the model")
        self._wrapper.set_parameters(parameters)
        if on_bound is not None:
            self._wrapper.add_best_bound_callback(on_bound)
        if on_values is not None:
            self._listener = _listener(cmh, len(model), on_values)
            self._wrapper.add_solution_callback(self._listener)
        response = self._wrapper.solve(proto)
        status = cmh.CpSolverStatus
        return Answer(
            tuple(int(value) for value in response.solution),
            float(response.best_objective_bound),
            response.status == status.OPTIMAL,
            response.status == status.INFEASIBLE,
        )


def _listener(cmh: Any, count: int, on_values: Callable[[tuple[int, ...]], None]) -> Any:
    class Listener(cmh.SolutionCallback):  # type: ignore[misc]
        def OnSolutionCallback(self) -> None:
            on_values(tuple(int(self.SolutionIntegerValue(index)) for index in range(count)))

    return Listener()
