"""Jobs made up at random, of believable sizes, in both units: what a property is tried on."""

from __future__ import annotations

from dataclasses import dataclass

from hypothesis import strategies as st

_SHOP = """shop "made-up bench"
  units mm
machine "borer"
  speeds     35 50 70 100 rpm
  feeds      0.05 0.10 mm/rev
  dial       {dial}
  dial-step  {dial_step}
gauge "setting gauge"
  range     20 to 80
  marked    {marked}
  step      {step}
  master    40.000 reads {reads}
bore-gauge "bore gauge"
  range     20 to 80
  marked    {marked}
  step      {bore_step}
  ring      44.000 reads 44.000
cutter C1
  range      20 to 80
  tip-width  12
  corner-radius 0.4
  overcut    {overcut}
pilots
  pilot  diameter  length  kind
  P1     7.980     60      dead
  P2     7.990     60      dead
inserts
  insert  od     od-least  od-most  height  id  chamfer  alloy       seat  on-hand
{inserts}
practice
  clean-up         0.10
  floor-clean-up   0.05
  trial-under      0.10
  top-speed        50 rpm
  surface-speed    20 m/min
  feed             0.10 mm/rev
  depth-tolerance  0.05
  slip             0.03
assembly
  oven   {oven} C
  chill  "dry ice" -78.5 C arrives {arrives} C
  press  40 kN
"""


@dataclass(frozen=True, slots=True)
class Files:
    """A job and its shop file."""

    job: str
    shop: str

    def load(self, name: str) -> bytes:
        """As a loader hands them out."""
        return (self.job if name == "job.seat" else self.shop).encode()


@st.composite
def jobs(draw: st.DrawFn, most_valves: int = 6) -> Files:
    """A job of one head with a few valves, measured within what a used head shows, and a shop that may serve it."""
    inch = draw(st.booleans())
    marked = draw(st.sampled_from(["mm", "inch"]))
    od = [38 + 0.5 * number for number in range(draw(st.integers(2, 6)))]
    rows = "".join(
        f"  X{number}  {size:.3f}  {size - 0.006:.3f}  {size + 0.006:.3f}  7.00  28  0.8  tool-steel  any  "
        f"{draw(st.integers(1, 8))}\n"
        for number, size in enumerate(od)
    )
    shop = _SHOP.format(
        dial="inch" if draw(st.booleans()) else "mm",
        dial_step=draw(st.sampled_from(["0.02", "0.05", ".001 in"])),
        marked=marked,
        step=draw(st.sampled_from(["0.002", "0.001", ".0001 in", ".00005 in"])),
        bore_step=draw(st.sampled_from(["0.001", "0.002", ".0001 in"])),
        reads=f"{40 + draw(st.integers(-3, 3)) / 1000:.3f}",
        overcut=f"{draw(st.integers(0, 12)) / 1000:.3f}",
        oven=draw(st.integers(60, 200)),
        arrives=draw(st.integers(-70, 10)),
        inserts=rows.rstrip("\n"),
    )
    factor = 25.4 if inch else 1.0
    digits = 4 if inch else 3

    def size(low: float, high: float) -> str:
        steps = draw(st.integers(0, 1000))
        return f"{(low + (high - low) * steps / 1000) / factor:.{digits}f}"

    count = draw(st.integers(1, most_valves))
    valves = [f"{'IE'[number % 2]}{number // 2 + 1}" for number in range(count)]
    measured = ""
    for name in valves:
        # The two readings of one pocket lie as near each other as a worn pocket's do.
        pocket = 37.5 + draw(st.integers(0, 230)) / 100
        measured += (
            f"  {name}  {size(7.955, 7.965)}  {size(7.99, 8.01)}  {size(8.0, 8.03)}  {size(pocket, pocket + 0.06)}"
            f"  {size(pocket, pocket + 0.06)}  {size(6.6, 7.2)}  {size(0, 0.1)}  {size(29, 31)}\n"
        )
    temperature = draw(st.sampled_from(["", "  temperature 24 C\n", "  temperature 70 F\n"]))
    job = (
        f'job 1 "made up"\n  units {"inch" if inch else "mm"}\nuse "made-up.shop"\nhead "made up"\n'
        f"  material {draw(st.sampled_from(['grey iron', 'aluminium']))}\n{temperature}"
        'valves all\n  insert choose\n  interference 0.06 to 0.09 mm "made up"\n  stand below 0.00 to 0.10 mm\n'
        "  guide-length 60 mm\n  guide-to-floor 26 mm\n"
        "measured\n  valve  stem  guide-top  guide-bottom  pocket-a  pocket-b  pocket-depth  pocket-tir  throat\n"
        f"{measured}"
    )
    return Files(job, shop)
