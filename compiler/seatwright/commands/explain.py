"""`seatwright explain JOB VALVE [FIGURE]`: how a figure came about, what was passed over, what would lift a hold.

Also `explain JOB setting NAME` and `explain JOB VALVE insert NAME`; all of them as text, or as JSON for a program.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Sequence
from typing import Literal, get_args

from msgspec import Struct, field, to_builtins

from seatwright.cards.parts.words import STATUS
from seatwright.commands.jobs.outcome import Exit, read_and_plan, say
from seatwright.commands.terminal.saying import complain
from seatwright.planning.basis.wording import name_key
from seatwright.planning.certainty.budgets import budget_rows
from seatwright.planning.plan import PassedOver, Plan, ValvePlan
from seatwright.planning.plan.figure import Figure
from seatwright.syntax.suggest import nearest
from seatwright.text.forms import schema_of
from seatwright.text.showing import for_programs
from seatwright.told.assumptions import assumptions
from seatwright.told.derivation import Step, derivation_steps, in_units_of, named_figures, step_lines
from seatwright.told.in_short import in_short
from seatwright.told.lifting import lifting

_BUDGETS = ("u", "u_accept")
_BEFORE_THE_WORK = ("at20", "position", "valve_tilt")
"""What the figures of the work rest on: it stands behind them, since each of these shows what it needs of it."""
ExplainForm = Literal["seatwright-explain/1"]


class BudgetLine(Struct, frozen=True):
    """A line of an uncertainty budget, written out."""

    source: str
    figure: str
    divisor: str
    contribution: str


class ExplainedFigure(Struct, frozen=True):
    """One figure: its path, its value with as many digits as it bears, how it came about; the lines of a budget."""

    path: str
    result: str
    steps: tuple[Step, ...]
    budget: tuple[BudgetLine, ...] = ()


class ExplainedHold(Struct, frozen=True):
    """A hold, and what would have to change."""

    slug: str
    text: str
    help: str
    would_lift: tuple[str, ...]


class Answer(Struct, frozen=True):
    """All that is said of a valve, an insert or a setting. in_short: the sentence that the rest explains, or empty."""

    of: str
    in_short: str
    figures: tuple[ExplainedFigure, ...]
    assumptions: tuple[str, ...] = ()
    holds: tuple[ExplainedHold, ...] = ()
    passed_over: tuple[dict[str, str], ...] = field(default=())
    format: ExplainForm = "seatwright-explain/1"


def explain(
    job: str, valve: str, figure: str | None, name: str | None = None, form: str = "text", short: bool = False
) -> Exit:
    """Print the derivation of one figure of a valve, or of all of them.

    valve : a valve, or the word `setting` with its name, its reading or its number as figure
    figure : a path such as `bore.aim`, or the word `insert` with the name of one that was passed over
    form : text | json
    short : only the sentence that the rest explains
    """
    outcome = read_and_plan(job)
    plan = outcome.plan
    if plan is None:
        say(outcome.errors, outcome.sources)
        return Exit.ERRORS
    answer = _setting(plan, figure) if valve.lower() == "setting" else _valve(plan, valve, figure, name)
    if answer is None:
        return Exit.WRONG_USE
    if form == "json":
        sys.stdout.write(for_programs(to_builtins(answer)))
    elif short:
        sys.stdout.write(f"{answer.in_short or answer.of}\n")
    else:
        sys.stdout.write("\n".join(_written(answer)) + "\n")
    return Exit.DONE


def _valve(plan: Plan, valve: str, figure: str | None, name: str | None) -> Answer | None:
    found = next((each for each in plan.valves if each.name == valve.upper()), None)
    if found is None:
        names = [each.name for each in plan.valves]
        _refuse(f"{valve} is no valve that this job plans", nearest(valve.upper(), names), names)
        return None
    if figure == "insert" and name is not None:
        return _insert(plan, found, name)
    figures = dict(sorted(named_figures(found), key=lambda each: each[0].partition(".")[0] in _BEFORE_THE_WORK))
    wanted = {path: each for path, each in figures.items() if figure is None or _below(path, figure)}
    if not wanted and not (figure == "holds" and found.holds):
        _refuse(f"{found.name} has no figure {figure}", nearest(figure or "", figures), figures)
        return None
    head = next(each for each in plan.heads if each.number == found.head)
    asks_insert = figure is None or figure.partition(".")[0] == "insert"
    return Answer(
        of=f"{found.name}, {found.kind}: {STATUS[found.status]}",
        in_short=in_short(plan, found, wanted, figure),
        figures=_explained(plan, wanted),
        assumptions=assumptions(head, found, wanted),
        holds=tuple(ExplainedHold(one.slug, one.text, one.help, lifting(plan, found, one)) for one in found.holds),
        passed_over=tuple(_ruled_out(plan, each) for each in _passed(found)) if asks_insert else (),
    )


def _insert(plan: Plan, valve: ValvePlan, name: str) -> Answer | None:
    """An insert that was passed over: the figure that ruled it out, and how that came about."""
    if valve.insert is not None and name_key(valve.insert.name) == name_key(name):
        parts = {f"insert.{path}": each for path, each in named_figures(valve.insert) if "passed_over" not in path}
        return Answer(f"{valve.name}: {valve.insert.name} is the insert that was chosen", "", _explained(plan, parts))
    passed = {name_key(each.name): each for each in _passed(valve)}
    one = passed.get(name_key(name))
    if one is None:
        names = [each.name for each in passed.values()]
        _refuse(f"{name} was not looked at for {valve.name}", nearest(name, names), names)
        return None
    parts = {word: each for word, each in (("figure", one.figure), ("limit", one.limit)) if each is not None}
    return Answer(f"{valve.name}: {one.text} [{one.reason}]", "", _explained(plan, parts))


def _setting(plan: Plan, name: str | None) -> Answer | None:
    """A setting by its name, by the reading at its end, or by its number."""
    wanted = (name or "").casefold()
    found = [
        each for each in plan.settings
        if wanted in (each.name.casefold(), each.name.rpartition(" ")[2], str(each.number))
    ]  # fmt: skip
    if len(found) != 1:
        names = [each.name for each in plan.settings]
        which = f"there are several settings {name}" if found else f"there is no setting {name or 'without its name'}"
        _refuse(which, nearest(name or "", names), names)
        return None
    (setting,) = found
    proof = [name for name in plan.fewest_settings_proof if name in setting.valves]
    why = f"; no other setting serves {' or '.join(proof)}" if proof else ""
    return Answer(
        f"setting {setting.name}, for {' '.join(setting.valves)}{why}",
        "",
        _explained(plan, dict(named_figures(setting))),
    )


def _passed(valve: ValvePlan) -> tuple[PassedOver, ...]:
    return () if valve.insert is None else valve.insert.passed_over


def _ruled_out(plan: Plan, one: PassedOver) -> dict[str, str]:
    said = {"name": one.name, "reason": one.reason, "text": one.text}
    for word, each in (("figure", one.figure), ("limit", one.limit)):
        if each is not None:
            said[word] = in_units_of(plan.job, each)
    return said


def _explained(plan: Plan, figures: dict[str, Figure]) -> tuple[ExplainedFigure, ...]:
    return tuple(
        ExplainedFigure(
            path,
            in_units_of(plan.job, each),
            derivation_steps(plan.job, each),
            _budget(plan, each) if each.symbol in _BUDGETS else (),
        )
        for path, each in figures.items()
    )


def _budget(plan: Plan, u: Figure) -> tuple[BudgetLine, ...]:
    return tuple(
        BudgetLine(row.source, in_units_of(plan.job, row.figure), row.divisor, in_units_of(plan.job, row.contribution))
        for row in budget_rows(u)
    )


def _below(path: str, wanted: str) -> bool:
    return path == wanted or path.startswith(wanted + ".")


def _refuse(what: str, likely: str | None, known: Iterable[str]) -> None:
    hint = f"did you mean {likely}? " if likely else ""
    complain("explain", f"{what}; {hint}There are: {', '.join(known)}")


def _written(answer: Answer) -> list[str]:
    """The lines of the answer: each figure with its own step, then, once, all that the figures rest on."""
    lines = [*([answer.in_short] if answer.in_short else []), answer.of, ""]
    shown: set[tuple[str, str, str]] = set()
    for figure in answer.figures:
        lines.append(f"{figure.path} = {figure.result}")
        lines.extend(f"    {line}" for line in _budget_lines(figure.budget))
        for step in figure.steps:
            key = (step.symbol, step.result, step.origin)
            if key in shown:
                continue
            shown.add(key)
            lines.extend(f"    {line}" for line in step_lines(step))
        lines.append("")
    if answer.assumptions:
        lines += ["taken for granted:", *(f"    {each}" for each in answer.assumptions), ""]
    for hold in answer.holds:
        lines.append(f"HOLD {hold.slug}: {hold.text} {hold.help}")
        lines.extend(f"    {each}" for each in hold.would_lift)
    if answer.passed_over:
        lines.append("inserts passed over:")
        lines.extend(f"    {_named(each['name'], each['text'])} [{each['reason']}]" for each in answer.passed_over)
    return lines


def _named(name: str, text: str) -> str:
    """Most reasons name their insert; one that does not gets it in front."""
    return text if name in text else f"{name}: {text}"


def _budget_lines(budget: Sequence[BudgetLine]) -> list[str]:
    """The table of a budget, its columns under each other."""
    if not budget:
        return []
    rows = [("what of", "as stated", "divided by", "adds")]
    rows += [(each.source, each.figure, each.divisor, each.contribution) for each in budget]
    wide = [max(len(row[column]) for row in rows) for column in range(3)]
    return ["  ".join((*(row[at].ljust(wide[at]) for at in range(3)), row[3])) for row in rows]


def schema() -> str:
    """The JSON Schema of `explain --as json`."""
    return schema_of(Answer, get_args(ExplainForm)[0], "How figures came about: `seatwright explain --as json`")


if __name__ == "__main__":
    print(schema(), end="")
