"""What a row comes to, behind it: the insert, the bore at the bench and the setting; a verdict; whose fit it is."""

from __future__ import annotations

from collections.abc import Iterator

from lsprotocol.types import InlayHint, InlayHintParams, MarkupContent, MarkupKind, Position

from seatwright.cards.parts.figures import bench, limits, shown
from seatwright.cards.parts.words import STATUS, WITH_FIGURES, bore_limits, span
from seatwright.editor.texts.desk import AsItStands, Desk
from seatwright.editor.texts.positions import halves
from seatwright.job.declarations import job_sections, job_tables
from seatwright.planning.plan import Plan, Status, ValvePlan
from seatwright.syntax import tree
from seatwright.told.derivation import Step, derivation_steps, named_figures, step_lines
from seatwright.told.in_short import in_short
from seatwright.told.lifting import lifting


def inlay(desk: Desk, params: InlayHintParams) -> list[InlayHint]:
    """What stands behind the lines that are on the screen; nothing where the editor has set it off."""
    stands = desk.stands(params.text_document.uri)
    if stands is None or stands.plan is None or stands.tree is None or not desk.inlay:
        return []
    first, last = params.range.start.line + 1, params.range.end.line + 1
    return [
        _hint(stands, line, text, about)
        for line, text, about in _behind(stands.plan, stands.tree)
        if first <= line <= last
    ]


def with_derivation(desk: Desk, hint: InlayHint) -> InlayHint:
    """The same with how it came about, for the one that is pointed at."""
    data = hint.data if isinstance(hint.data, dict) else {}
    stands = desk.stands(str(data.get("uri", "")))
    if stands is not None and stands.plan is not None:
        valve = next((each for each in stands.plan.valves if each.name == data.get("valve")), None)
        if valve is not None:
            hint.tooltip = MarkupContent(MarkupKind.Markdown, derived(stands.plan, valve))
    return hint


def derived(plan: Plan, valve: ValvePlan) -> str:
    """Why a valve is bored to what it is bored to, as `explain` says it; of one on hold, what would lift that."""
    figures = dict(named_figures(valve))
    sentence = in_short(plan, valve, figures, None)
    if valve.holds:
        return "\n\n".join(_held(plan, valve))
    lines = [line for step in _steps(plan, valve) for line in step_lines(step)]
    derivation = "\n".join(lines)
    return f"{sentence}\n\n```\n{derivation}\n```" if lines else sentence or f"{valve.name}: {STATUS[valve.status]}"


def makes(plan: Plan, valve: ValvePlan) -> str:
    """What a valve comes to, in a line: `X41, 41.008–41.032, setting C2 at 41.014`."""
    if valve.holds:
        return f"HOLD: {valve.holds[0].text.partition('. ')[0].rstrip('.')}"
    if valve.status not in WITH_FIGURES:
        insert = f"{valve.insert.name}, " if valve.insert is not None and valve.status == Status.KEPT else ""
        return f"{insert}{STATUS[valve.status]}"
    setting = next((each.name for each in plan.settings if valve.name in each.valves), None)
    words = [
        valve.insert.name if valve.insert is not None else "",
        span(bore_limits(plan.job, valve)).replace(" to ", "–"),
        f"setting {setting}" if setting else "",
        "" if valve.status == Status.TO_BORE else STATUS[valve.status],
    ]
    return ", ".join(word for word in words if word)


def _held(plan: Plan, valve: ValvePlan) -> Iterator[str]:
    for hold in valve.holds:
        yield f"**{valve.name} is on hold:** {hold.text}"
        yield " ".join((hold.help, *lifting(plan, valve, hold)))


def _steps(plan: Plan, valve: ValvePlan) -> Iterator[Step]:
    seen: set[tuple[str, str, str]] = set()
    bore = valve.bore
    for figure in () if bore is None else (bore.bench_least, bore.bench_most):
        for step in derivation_steps(plan.job, figure):
            if (key := (step.symbol, step.result, step.origin)) not in seen:
                seen.add(key)
                yield step


def _behind(plan: Plan, file: tree.File) -> Iterator[tuple[int, str, str]]:
    """The lines that something stands behind, what, and the valve that it is about."""
    valves = {valve.name: valve for valve in plan.valves}
    for word, says in ((job_tables.MEASURED.word, makes), (job_tables.CUT.word, _verdict)):
        for name, line in _last_rows(file, word).items():
            if name in valves and (text := says(plan, valves[name])):
                yield line, text, name
    for section in file.sections:
        if section.name == job_sections.VALVES.word:
            yield from _whose(plan, section)


def _last_rows(file: tree.File, word: str) -> dict[str, int]:
    """The last row of each valve in the tables of a section."""
    found: dict[str, int] = {}
    for section in file.sections:
        if section.name == word:
            for table in section.tables:
                for row in table.rows:
                    if row.cells and isinstance(row.cells[0], tree.Word):
                        found[row.cells[0].text.upper()] = row.span.line
    return found


def _verdict(plan: Plan, valve: ValvePlan) -> str:
    cut = valve.cut
    if cut is None or cut.verdict is None:
        return ""
    verdict = STATUS.get(cut.verdict, cut.verdict)
    if cut.interference is None:
        return verdict
    return f"{verdict}, fit {shown(cut.interference, bench(plan.job)).text}"


def _whose(plan: Plan, section: tree.Section) -> Iterator[tuple[int, str, str]]:
    """Behind `interference`, else behind `insert`: the fit of the valves that this line is for, and whose it is."""
    lines = {line.word.text: line for line in section.fields}
    line = lines.get("interference") or lines.get("insert")
    if line is None:
        return
    place = (line.span.file, line.span.line)
    fits: dict[str, str] = {}
    for valve in plan.valves:
        wish, given = valve.valve.specification.insert, valve.valve.specification.interference
        spans = [each.span for each in (given, None if given is not None else wish) if each is not None]
        if valve.interference is not None and any((span.file, span.line) == place for span in spans):
            pair = limits(valve.interference.least, valve.interference.most, bench(plan.job))
            said = f"fit {span(pair).replace(' to ', '–')}, {valve.interference.source}"
            fits.setdefault(said, valve.name)
    if fits:
        yield line.span.line, "; ".join(fits), next(iter(fits.values()))


def _hint(stands: AsItStands, line: int, text: str, valve: str) -> InlayHint:
    typed = stands.lines[line - 1]
    # At the end of the line, behind its comment: what is typed stays in one piece.
    where = Position(line - 1, halves(typed, len(typed.rstrip())))
    return InlayHint(where, f"→ {text}", padding_left=True, data={"uri": stands.uri, "valve": valve})
