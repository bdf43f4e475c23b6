"""`seatwright explain JOB VALVE [FIGURE]`: how a figure came about."""

from __future__ import annotations

import sys
from collections.abc import Iterable

from seatwright.commands.outcome import Exit, read_and_plan, say
from seatwright.planning.derivation import Step, named_figures, steps
from seatwright.planning.figure import Figure
from seatwright.planning.plan import ValvePlan
from seatwright.syntax.suggest import nearest


def explain(job: str, valve: str, figure: str | None) -> Exit:
    """Print the derivation of one figure of a valve, or of all of them."""
    outcome = read_and_plan(job)
    plan = outcome.plan
    if plan is None:
        say(outcome.errors, outcome.sources)
        return Exit.ERRORS
    found = next((each for each in plan.valves if each.name == valve.upper()), None)
    if found is None:
        names = [each.name for each in plan.valves]
        _refuse(f"{valve} is no valve that this job plans", nearest(valve.upper(), names), names)
        return Exit.WRONG_USE
    figures = dict(named_figures(found))
    wanted = {path: each for path, each in figures.items() if figure is None or _below(path, figure)}
    if not wanted:
        _refuse(f"{found.name} has no figure {figure}", nearest(figure or "", figures), figures)
        return Exit.WRONG_USE
    sys.stdout.write("\n".join(_written(found, wanted)) + "\n")
    return Exit.DONE


def _below(path: str, wanted: str) -> bool:
    return path == wanted or path.startswith(wanted + ".")


def _refuse(what: str, likely: str | None, known: Iterable[str]) -> None:
    hint = f"did you mean {likely}? " if likely else ""
    sys.stderr.write(f"seatwright explain: {what}; {hint}There are: {', '.join(known)}\n")


def _written(valve: ValvePlan, figures: dict[str, Figure]) -> list[str]:
    """The lines of the answer: each figure with its own step, then, once, all that the figures rest on."""
    lines = [f"{valve.name} ({valve.kind}, {valve.status})", ""]
    shown: set[tuple[str, str, str]] = set()
    for path, figure in figures.items():
        chain = steps(figure)
        lines.append(f"{path} = {chain[0].result}")
        for step in chain:
            key = (step.symbol, step.result, step.origin)
            if key in shown:
                continue
            shown.add(key)
            lines.extend(f"    {line}" for line in step_lines(step))
        lines.append("")
    lines.extend(_holds(valve))
    lines.extend(_passed_over(valve))
    return lines


def step_lines(step: Step) -> list[str]:
    """One step: `symbol = formula = substituted = result`, each on its own line, then where it comes from."""
    source = f"   [{step.source}]" if step.source else ""
    note = f"   ({step.note})" if step.note else ""
    if not step.formula:
        origin = f"   {step.origin}" if step.origin else ""
        return [f"{step.symbol} = {step.result}{origin}{note}"]
    pad = " " * len(step.symbol)
    lines = [f"{step.symbol} = {step.formula}{source}"]
    if step.substituted and step.substituted != step.formula:
        lines.append(f"{pad} = {step.substituted}")
    lines.append(f"{pad} = {step.result}{note}")
    return lines


def _holds(valve: ValvePlan) -> list[str]:
    return [f"HOLD {hold.slug}: {hold.text}. {hold.help}" for hold in valve.holds]


def _passed_over(valve: ValvePlan) -> list[str]:
    if valve.insert is None or not valve.insert.passed_over:
        return []
    lines = ["inserts passed over:"]
    lines.extend(f"    {each.name}: {each.text} [{each.reason}]" for each in valve.insert.passed_over)
    return lines
