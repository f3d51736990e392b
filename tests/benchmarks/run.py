"""How fast, against what, all measured in one run: `python tests/benchmarks/run.py`.

Times are of this machine at this moment; the ratios are what to read. Every line that is extrapolated or taken from a
process of its own says so. The numbers of the compared ways are held to each other before anything is timed.
"""

from __future__ import annotations

import json
import platform
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.benchmarks import by_hand_fast
from tests.builds import numbers_of, plausible
from tests.by_hand import Bench
from tests.views.larkspur import mark_panel, repeated_pair
from valvegeo import best_pose, follow, locate, settle, size, sweep
from valvegeo.answers.size import answer_size
from valvegeo.motion.belief.fit import fit_marks
from valvegeo.views.printed.page import page_text

VALVES, LENGTHS, LIFTS = 12, 100, 834
SAMPLE = 4000
"""Poses that are root-found one by one; the rest is extrapolated."""


def best_of(runs: int, work: Callable[[], object]) -> float:
    """Least time of several runs [s]: the one least disturbed by others on the machine."""
    times = []
    for _ in range(runs):
        begun = time.perf_counter()
        work()
        times.append(time.perf_counter() - begun)
    return min(times)


def row(what: str, seconds: float, against: str = "", ratio: str = "") -> None:
    print(f"{what:<56}{1e3 * seconds:>10.2f} ms  {against:<36}{ratio}")


def alternately(runs: int, *works: Callable[[], object]) -> list[float]:
    """Least time of each, taken in turns so that what disturbs one disturbs all."""
    times = [[best_of(1, work) for work in works] for _ in range(runs)]
    return [min(column) for column in zip(*times, strict=True)]


def million_poses() -> None:
    builds = plausible(VALVES, seed=1)
    mechanism = locate(builds)
    lengths = best_pose(mechanism).pushrod_length + np.linspace(-0.05, 0.05, LENGTHS)[:, None]
    pose, travel = settle(mechanism, lengths), np.linspace(0.0, 0.25, LIFTS)
    parts = by_hand_fast.prepared(pose)
    ours = follow(pose, travel)
    for theirs in (by_hand_fast.for_arrays(parts, travel), by_hand_fast.for_arrays_over_the_angle(parts, travel)):
        for name, values in theirs.items():
            np.testing.assert_allclose(getattr(ours, name), values, atol=1e-10, err_msg=name)

    rng = np.random.default_rng(2)
    spread = {name: np.broadcast_to(value[..., 0], (LENGTHS, VALVES)) for name, value in parts.items()}
    chosen = [(rng.integers(LENGTHS), rng.integers(VALVES), rng.integers(LIFTS)) for _ in range(SAMPLE)]
    single = [({name: float(v[i, j]) for name, v in spread.items()}, float(travel[k])) for i, j, k in chosen]
    found = np.array([by_hand_fast.for_one_pose(*one) for one in single])
    at = tuple(np.array(chosen).T)
    np.testing.assert_allclose(found[:, 0], ours.rocker_angle[at], atol=1e-9)
    np.testing.assert_allclose(found[:, 1], ours.contact[at], atol=1e-10)
    np.testing.assert_allclose(found[:, 3], ours.ratio[at], atol=1e-9)

    poses = LENGTHS * VALVES * LIFTS
    library, algebra, angles = alternately(
        15,
        lambda: follow(pose, travel),
        lambda: by_hand_fast.for_arrays(parts, travel),
        lambda: by_hand_fast.for_arrays_over_the_angle(parts, travel),
    )
    rooted = best_of(3, lambda: [by_hand_fast.for_one_pose(*one) for one in single]) / SAMPLE * poses
    bench = Bench(numbers_of(builds)[0])
    rise, shift = (
        float(pose.pivot_rise[LENGTHS // 2, 0]),
        float(np.broadcast_to(pose.seat_shift, (LENGTHS, VALVES))[0, 0]),
    )
    length = float(pose.pushrod_length[LENGTHS // 2, 0])
    vectors = (
        best_of(3, lambda: [bench.theta_of(rise, length, shift + s) for s in travel[::8]]) / len(travel[::8]) * poses
    )
    row(f"follow, {poses:.1e} poses, all results", library)
    row(
        "  NumPy by hand, cosine and sine by algebra",
        algebra,
        "library / by hand (aim 1.3)",
        f"{library / algebra:.2f}",
    )
    row("  NumPy by hand, over the angle", angles, "library / by hand", f"{library / angles:.2f}")
    aim = "root-finding / library (aim 1000)"
    row(f"  brentq on plain floats, extrapolated from {SAMPLE}", rooted, aim, f"{rooted / library:.0f}")
    row(f"  brentq on NumPy vectors, extrapolated from {len(travel[::8])}", vectors, aim, f"{vectors / library:.0f}")


def one_cycle() -> None:
    builds = plausible(1, seed=3)
    mechanism = locate(builds)
    travel = np.linspace(0.0, float(mechanism.lobe_lift[0]), 361)
    best = best_pose(mechanism)
    parts = by_hand_fast.prepared(best)
    library, by_hand = alternately(300, lambda: follow(best, travel), lambda: by_hand_fast.for_arrays(parts, travel))
    row("one lift cycle of 361 points, all results", library, "library / by hand", f"{library / by_hand:.2f}")
    marks = best_of(100, lambda: sweep(best))
    row("  marks, band, ratios of the pose", marks)
    settled = best_of(100, lambda: settle(mechanism, builds.check_length))
    row("  settling a pushrod into it", settled)


def sizing() -> None:
    builds = plausible(VALVES, seed=4)
    row("size, 12 valves", best_of(20, lambda: size(builds)))
    row("size, 12000 valves", best_of(3, lambda: size(plausible(1000 * VALVES, seed=4))))


def pages() -> None:
    def writing(valves: int) -> Callable[[], object]:
        answer = answer_size(repeated_pair(valves), drawn=True)
        return lambda: page_text(answer)

    few, many = 2, 200
    start, whole = alternately(3, writing(few), writing(many))
    row(f"page of size, {few} valves", start)
    row(f"page of size, {many} valves", whole)
    row(
        "  a further valve",
        (whole - start) / (many - few),
        "further valve / page of two",
        f"{(whole - start) / (many - few) / start:.3f}",
    )


def moved_lines() -> None:
    """A line dragged to and fro on the marks panel: answer, words and all four figures of each move."""
    panel = mark_panel()
    fitting = best_of(10, lambda: fit_marks(panel.value.measured, panel.value.readings))
    for what, line, there in (("where ink is at ease", 8, 0.156), ("where mistakes are looked for", 0, 0.205)):
        back = panel.places[line].value
        times = []
        for place in (there, back) * 10:
            times.append(best_of(1, partial(setattr, panel.places[line], "value", place)))
        move = statistics.median(times[::2])  # there, not back
        row(f"marks panel, a line moved {what} (aim 150 ms)", move, "move / fit alone", f"{move / fitting:.1f}")


def in_a_process(program: str) -> dict[str, float]:
    """What a fresh interpreter prints as JSON."""
    root = str(Path(__file__).parents[2])
    ran = subprocess.run([sys.executable, "-c", program], cwd=root, capture_output=True, text=True, check=True)
    return dict(json.loads(ran.stdout))


FIRST_SIZE = """
import json, time
begun = time.perf_counter()
import numpy, scipy.optimize
libraries = time.perf_counter()
import valvegeo.motion.sizing
imported = time.perf_counter()
from tests.builds import centred
build = centred()
ready = time.perf_counter()
valvegeo.motion.sizing.size(build)
first = time.perf_counter()
valvegeo.motion.sizing.size(build)
second = time.perf_counter()
print(json.dumps({"libraries": libraries - begun, "import": imported - libraries,
                  "first": (first - ready) - (second - first)}))
"""

LIBRARIES = "-c", "import numpy, scipy.optimize"
"""What a process with numbers cannot do without: the commands' yardstick."""

COMMANDS = (
    "template intake exhaust",
    "size data/larkspur_pair.csv",
    "size data/larkspur_stand.csv",
    "read data/larkspur_pair.csv data/larkspur_marks.csv",
    "order data/larkspur_six.csv data/larkspur_stock.csv",
    "order data/larkspur_six.csv data/larkspur_stock.csv --delivered data/larkspur_delivered.csv",
    "changes data/larkspur_pair.csv --gasket-change 0.030 --temperature-rise 60",
    "quick --arm 1.52 --ratio 1.6 --lift 0.57 --mark-travel 0.044",
    "cautions",
)

IMPORT = "import json, time; t = time.perf_counter(); import {}; print(json.dumps({{'s': time.perf_counter() - t}}))"

MEMORY = """
import json, resource, tracemalloc
import numpy as np
from tests.builds import numbers_of, plausible
from tests.by_hand import Bench
from tests.views.larkspur import mark_panel, repeated_pair
from valvegeo import best_pose, locate, settle
from valvegeo.motion.cycle import follow, follow_in_chunks
mechanism = locate(plausible(12, seed=5))
pose = settle(mechanism, best_pose(mechanism).pushrod_length + np.linspace(-0.05, 0.05, 1000)[:, None])
follow(pose, np.zeros(1))
before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
{trace}
count, outer = 0, np.full((1000, 12), -np.inf)
for path in follow_in_chunks(pose, np.linspace(0.0, 0.25, 834)):
    count += path.contact.size
    outer = np.maximum(outer, path.contact.max(axis=-1))
assert np.isfinite(outer).all()
peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
print(json.dumps({{"poses": count, "before": before / 1024, "peak": peak / 1024, "traced": {traced}}}))
"""


def fresh_processes() -> None:
    runs = [in_a_process(FIRST_SIZE) for _ in range(3)]
    first = {name: min(run[name] for run in runs) for name in runs[0]}
    row("first size, own process: importing numpy, scipy.optimize", first["libraries"])
    row("  importing the rest that size needs", first["import"])
    row("  first call less a second one: the printed equations", first["first"])
    ours, numpys = (
        statistics.median(in_a_process(IMPORT.format(name))["s"] for _ in range(9)) for name in ("valvegeo", "numpy")
    )
    row("import valvegeo, own process, median of 9", ours, "valvegeo / numpy", f"{ours / numpys:.3f}")
    row("  import numpy", numpys)
    whole = in_a_process(MEMORY.format(trace="", traced="0"))
    traced = in_a_process(
        MEMORY.format(trace="tracemalloc.start()", traced="tracemalloc.get_traced_memory()[1] / 2**20")
    )
    print(
        f"{whole['poses']:.1e} poses in chunks, own process: peak of the whole process {whole['peak']:.0f} MB "
        f"(aim 500; {whole['before']:.0f} MB of it before the first chunk); arrays alone {traced['traced']:.0f} MB"
    )


def commands() -> None:
    root = Path(__file__).parents[2]

    def started(*arguments: str) -> Callable[[], object]:
        command = [sys.executable, *arguments]
        return lambda: subprocess.run(command, cwd=root, stdout=subprocess.DEVNULL, check=True)

    every = [started(*LIBRARIES), *(started("-m", "valvegeo", *command.split()) for command in COMMANDS)]
    libraries, *times = alternately(7, *every)
    row("a process that imports numpy, scipy.optimize", libraries)
    for command, seconds in zip(COMMANDS, times, strict=True):
        row(f"  {command}", seconds, "command / importing (aim 1.6)", f"{seconds / libraries:.2f}")


if __name__ == "__main__":
    print(f"Python {platform.python_version()}, NumPy {np.__version__}, {platform.machine()}")
    one_cycle()
    million_poses()
    sizing()
    pages()
    moved_lines()
    fresh_processes()
    commands()
