"""Published pocket tables typed as engine files: whatever is chosen, the bore is the maker's, or it is said why not.

Each table names its source: service manuals by their kind and year, army manuals by number and table. Head materials
are from memory; where a table prints no od, inserts are made for a usual fit (common practice).
"""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from seatwright.job import read
from seatwright.planning.plan import Plan, ValvePlan
from seatwright.planning.planner import plan

IN = 25.4
SAID = {
    "no-makers-size", "size-which", "outside-makers-bore", "no-makers-insert", "bore-over-maker",
    "no-insert-fits", "does-not-clean-up", "od-too-wide-for-fit", "stock-short",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Size:
    """A printed row: its name, limits of bore and od, in the table's units."""

    name: str
    bore: tuple[float, float]
    od: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class Table:
    """A printed table. source: where; mm: of one unit of it."""

    source: str
    material: str
    sizes: tuple[Size, ...]
    unit: str = "mm"
    extra: str = ""

    @property
    def mm(self) -> float:
        return IN if self.unit == "inch" else 1.0


_S1, _S3 = "a service manual of 2004", "a workshop manual for aluminium heads"
_S23 = "a service manual for three-cylinder engines"
_S5, _S6 = "army TM 5-6115-400-35 table 2.1", "army TM 5-3810-295-34 table 14-2"
_S7, _S27 = "army TM 9-6115-604-34 table 1-4", "army TM 5-3810-307-24-2-2"
TABLES = (
    Table(_S1, "aluminium", (
        Size("standard", (33.000, 33.015), (33.065, 33.078)), Size("+0.5", (33.500, 33.515)),
    )),
    Table(_S1, "aluminium", (
        Size("standard", (31.495, 31.510), (31.550, 31.561)), Size("+0.5", (31.995, 32.010)),
    )),
    Table(_S3, "aluminium", (Size("standard", (47.00, 47.01), (47.09, 47.10)),), extra="  repair    -  48.00  -  -\n"),
    Table(_S3, "aluminium", (Size("standard", (40.00, 40.01), (40.09, 40.10)),)),
    Table(_S3, "aluminium", (Size("standard", (42.00, 42.01), (42.09, 42.10)),)),
    Table(_S23, "aluminium", (Size("+0.3", (31.300, 31.325)), Size("+0.6", (31.600, 31.625)))),
    Table(_S23, "aluminium", (Size("+0.3", (29.300, 29.321)), Size("+0.6", (29.600, 29.621)))),
    Table(_S5, "grey-iron", (
        Size("standard", (1.6415, 1.6425), (1.6445, 1.6455)), Size("+.005", (1.6465, 1.6475), (1.6495, 1.6505)),
    ), "inch"),
    Table(_S5, "grey-iron", (
        Size("standard", (1.6075, 1.6085), (1.6105, 1.6110)), Size("+.005", (1.6125, 1.6135), (1.6155, 1.6160)),
    ), "inch"),
    Table(_S6, "grey-iron", (
        Size("standard", (1.9995, 2.0005), (2.0025, 2.0035)), Size("+.005", (2.0045, 2.0055), (2.0075, 2.0085)),
        Size("+.010", (2.0095, 2.0105), (2.0125, 2.0135)), Size("+.020", (2.0195, 2.0205), (2.0225, 2.0235)),
    ), "inch"),
    Table(_S7, "grey-iron", (Size("standard", (2.377, 2.378), (2.3805, 2.3815)),), "inch"),
    Table(_S27, "grey-iron", (Size("standard", (46.987, 47.013)),)),
)  # fmt: skip
CASES = [(table, size) for table in TABLES for size in table.sizes]
SHOP = """shop "bench"
  units mm
gauge "setting gauge"
  range 20 to 80
  step 0.002
  master 40 reads 40
bore-gauge "bore gauge"
  range 20 to 80
  step 0.001
  ring 40 reads 40
cutter C1
  range 20 to 80
  tip-width 12
inserts
  insert  od  od-least  od-most  height  id  chamfer  seat  on-hand
{inserts}
interference
  head       alloy  seat  over  to  least  most  source
  aluminium  any    any   -     -   0.05   0.09  "a usual fit"
  grey-iron  any    any   -     -   0.05   0.09  "a usual fit"
practice
  clean-up  0.10
"""


def od_of(size: Size, table: Table) -> tuple[float, float]:
    """The od limits of an insert made for a size [mm]."""
    if size.od is not None:
        return size.od[0] * table.mm, size.od[1] * table.mm
    middle = sum(size.bore) / 2 * table.mm + (0.06 if table.material == "aluminium" else 0.07)
    return middle - 0.004, middle + 0.004


def engine(table: Table, sizes: tuple[Size, ...]) -> str:
    """The table as an engine file."""
    rows = ""
    for size in sizes:
        od = ("-", "-") if size.od is None else tuple(f"{each:.4f}" for each in size.od)
        rows += f"  {size.name}  {size.bore[0]:.4f}  {size.bore[1]:.4f}  {od[0]}  {od[1]}\n"
    return (
        f'engine T1\n  units {table.unit}\n  source "{table.source}"\n  material {table.material}\n'
        f"pocket-sizes all\n  size  bore-least  bore-most  insert-od-least  insert-od-most\n{rows}{table.extra}"
    )


def planned(table: Table, sizes: tuple[Size, ...], size: Size, lines: str, *, measured: bool = False) -> Plan:
    """A worn pocket that cleans up in one size, with a shelf of all sizes and of some that are none."""
    inserts = ""
    for number, each in enumerate(table.sizes):
        least, most = od_of(each, table)
        for letter, off in (("S", 0.0), ("B", 0.07), ("C", 0.21)):
            low, high = least + off, most + off
            inserts += f"  {letter}{number}  {(low + high) / 2:.5f}  {low:.5f}  {high:.5f}  7.0  20  0.5  any  4\n"
    pocket = size.bore[0] * table.mm - 0.115
    od = sum(od_of(size, table)) / 2
    column, cell = ("  insert-od", f"  {od:.5f}") if measured else ("", "")
    job = (
        'job 1 "x"\n  units mm\nuse "b.shop"\nuse "t1.engine"\nhead "h"\n  temperature 20 C\nvalves E1\n'
        f"  stand below 0.00 to 0.10\n  pocket bore\n{lines}"
        f"measured\n  valve  pocket-a  pocket-b  pocket-depth{column}\n  E1  {pocket:.4f}  {pocket:.4f}  6.5{cell}\n"
    )
    files = {"job.seat": job, "b.shop": SHOP.format(inserts=inserts), "t1.engine": engine(table, sizes)}
    found, messages = read("job.seat", lambda name: files[name].encode())
    assert found is not None, messages
    return plan(found)


def is_makers(valve: ValvePlan, sizes: tuple[Size, ...], table: Table) -> bool:
    assert valve.bore is not None
    least, most = valve.bore.least.value, valve.bore.most.value
    shown = (valve.bore.bench_least.value, valve.bore.bench_most.value)
    limits = [(size.bore[0] * table.mm - 1e-9, size.bore[1] * table.mm + 1e-9) for size in sizes]
    return any(low <= least <= most <= high and low <= shown[0] <= shown[1] <= high for low, high in limits)


def held(valve: ValvePlan) -> bool:
    return bool({hold.slug for hold in valve.holds} & SAID)


WAYS = ("choose", "S{}", "B{}", "C{}")


@pytest.mark.parametrize("measured", [False, True], ids=["listed", "measured"])
@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize(("table", "size"), CASES, ids=lambda each: getattr(each, "name", getattr(each, "source", "")))
def test_a_bore_for_an_insert_is_the_makers_or_it_is_said_why_not(
    table: Table, size: Size, way: str, measured: bool
) -> None:
    number = table.sizes.index(size)
    for sizes in (table.sizes, (size,)):
        (valve,) = planned(table, sizes, size, f"  insert {way.format(number)}\n", measured=measured).valves
        assert held(valve) or (valve.bore is not None and is_makers(valve, sizes, table)), valve.holds
        if way == "S{}" and size.od is not None:
            assert not valve.holds
            assert valve.maker is not None
            assert valve.insert is not None
            assert (valve.insert.size or "").split()[0] == size.name  # an inch size has its unit in a job in mm


@pytest.mark.parametrize(("table", "size"), CASES, ids=lambda each: getattr(each, "name", getattr(each, "source", "")))
def test_the_bore_for_a_blank_does_not_pass_the_makers_largest(table: Table, size: Size) -> None:
    largest = max(48.00 if table.extra else 0.0, max(each.bore[1] for each in table.sizes) * table.mm)
    (valve,) = planned(table, table.sizes, size, "  insert turned\n").valves
    assert held(valve) or (valve.bore is not None and valve.bore.most.value <= largest + 1e-9)
    if valve.bore is not None:
        assert valve.bore.bench_most.value <= largest + 1e-9


@pytest.mark.parametrize(("table", "size"), CASES, ids=lambda each: getattr(each, "name", getattr(each, "source", "")))
def test_the_shops_fit_alone_is_warned_of(table: Table, size: Size) -> None:
    made = planned(table, table.sizes, size, "  insert choose\n  interference 0.05 to 0.08\n  size any\n")
    (valve,) = made.valves
    if valve.bore is not None and not is_makers(valve, table.sizes, table):
        assert any(message.slug == "makers-bore-not-kept" for message in made.messages)


def test_the_slip_of_a_printed_label_is_caught_and_both_sizes_as_they_are_pass() -> None:
    table = next(each for each in TABLES if each.source == _S6)
    # As printed: the row of .005 figures is labelled 0.010, and the .010 row then stands twice.
    slip = (table.sizes[0], Size("+.010", *(table.sizes[1].bore, table.sizes[1].od)), table.sizes[3])
    made = planned(table, slip, table.sizes[0], "  insert choose\n")
    assert ["+.010 is bored" in message.text for message in made.messages if message.slug == "size-label"] == [True]
    right = planned(table, table.sizes, table.sizes[0], "  insert choose\n")
    assert not any(message.slug == "size-label" for message in right.messages)
