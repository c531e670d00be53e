#!/usr/bin/python3
"""Known answers for the formulas of the second verifier.

    .ci/verify_test.py PROOF...

Of the proofs given, links, aims and ways are held to their bounds too. Exit 1, with a
trace, where an answer is not the known one.
"""
import math
import os
import sys

import numpy as np

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "verify"))

import bounds                        # noqa: E402
import interval                      # noqa: E402
import planes                        # noqa: E402
from claims import ClaimReader       # noqa: E402
from coordinates import Coordinates  # noqa: E402
from head import Reader              # noqa: E402
from motion import Motion            # noqa: E402
from proof import Proof              # noqa: E402
from text import Budget, Lines, Refused, pick  # noqa: E402

HEAD = 'boxwalk-proof 1\nscope all\nzone wall "wall"\ncarrier 0\n'
CUBE = " ".join(f"{x},{y},{z}" for x in (1, 2) for y in (1, 2) for z in (1, 2))


def given():
    """The models of the proofs named on the command line."""
    for name in sys.argv[1:]:
        with open(name, "rb") as f:
            yield Reader(Lines(f.read()), Budget()).read()


def model(records, place_records=""):
    text = HEAD + records + f'place 0 0 0 "p"\nsolid 0 wall sra {CUBE}\n' + place_records + "end 0\n"
    return Reader(Lines(text.encode()), Budget()).read()


def motion_of(file, step, points, intervals):
    return Motion(file.carriers[0].geometry, step, Budget(), points, intervals)


def step_of(records, drives, place_records=""):
    parts = f'part 0 0 {CUBE} "x"\n'
    file = model(records + parts + 'step 1 strip "s"\n' + drives, place_records)
    return file, file.carriers[0].steps[0]


# ---- known answers

def test_interval():
    rng = np.random.default_rng(1)
    for _ in range(200):
        a, b = np.sort(rng.normal(size=2)), np.sort(rng.normal(size=2))
        x, y = interval.Iv(a[:1], a[1:]), interval.Iv(b[:1], b[1:])
        p, q = rng.uniform(*a), rng.uniform(*b)
        for got, want in (((x * y), p * q), (x + y, p + q), (x - y, p - q), (interval.cos(x * 3), math.cos(3 * p)),
                          (interval.sin(x * 3), math.sin(3 * p)), (x.sq(), p * p)):
            assert got.lo[0] <= want <= got.hi[0]
        th, ok = interval.angle(x, y)
        if ok[0]:
            gap = (math.atan2(p, q) - th.lo[0]) % (2 * math.pi)
            assert gap <= th.width()[0] + 1e-12 or gap > 2 * math.pi - 1e-12


def test_list():
    assert pick("3-9,12", [1, 3, 5, 9, 12, 20]) == ([3, 5, 9, 12], [1, 20])
    for bad in ("2", "9-3", "5-9,3", "3-9,5-12", "03", "", "3,", "3-3"):
        try:
            pick(bad, [1, 3, 5, 9, 12, 20])
            assert False, bad
        except Refused:
            pass


def test_hinge_and_slide():
    file, step = step_of('body 0 -1 turn 0,0,1 1,0,0 - "h"\nbody 1 0 slide 2,0,0 0,0,0 - "s"\n',
                         f"drive 0 0 {math.pi / 2!r}\ndrive 1 0 0.5\n")
    m = motion_of(file, step, [0.0, 1.0], [(0, 1)])
    r, t = m.pose(-1, 0)
    assert np.allclose(r[1] @ [2, 0, 5] + t[1], [1, 1, 5])
    r, t = m.pose(-1, 1)
    assert np.allclose(r[1] @ [2, 0, 5] + t[1], [1, 2, 5])      # first slid to x = 3, then turned
    state = m.state(-1, 0)
    assert abs(state.om[0] - math.pi / 2) < 1e-12 and abs(state.al[0]) < 1e-12
    assert np.allclose(state.rho(np.array([[4.0, 4.0, 9.0]])), [5.0])


def test_link_closed_form():
    """A link between (0,0,0)->(3,0,0)-pinned hinge: the cosine rule."""
    file, step = step_of('body 0 -1 fixed "f"\nbody 1 0 turn 0,0,1 0,0,0 0 "t"\nlink 0 0 1 3,0,0 0,2,0\n', "drive 1 3.2 3.9\n")
    m = motion_of(file, step, [0.0, 0.25, 1.0], [(0, 2)])
    raised = math.acos(0.0)
    for i, s in enumerate((0.0, 0.25, 1.0)):
        l = 3.2 + 0.7 * s
        want = math.acos((9 + 4 - l * l) / 12) - raised
        assert abs(m.q_mid(1)[i] - want) < 1e-13
        r, t = m.pose(-1, 1)
        assert abs(np.linalg.norm(r[i] @ [0, 2, 0] + t[i] - [3, 0, 0]) - l) < 1e-12


def test_slide_by_link():
    file, step = step_of('body 0 -1 fixed "f"\nbody 1 0 slide 1,0,0 0,0,0 0 "t"\nlink 0 0 1 0,1,0 1,0,0\n', "drive 1 1.4 2.5\n")
    m = motion_of(file, step, [0.0, 1.0], [(0, 1)])
    for i, l in enumerate((1.4, 2.5)):
        assert abs(m.q_mid(1)[i] - (math.sqrt(l * l - 1) - 1)) < 1e-13


def test_aim():
    file, step = step_of('body 0 -1 fixed "f"\nbody 1 0 turn 0,0,1 0,0,0 - "t"\nbody 2 0 aim 0,0,1 -1,0,0 0 "a"\n'
                         'link 0 0 1 -1,0,0 1,0,0\n', "drive 1 0 1\n")
    m = motion_of(file, step, [0.0, 0.6, 1.0], [(0, 2)])
    for i, s in enumerate((0.0, 0.6, 1.0)):
        assert abs(m.q_mid(2)[i] - s / 2) < 1e-13       # the angle at the rim is half that at the centre


def check_bends(chain, step, body, frame, a, b, points, seed=0, n=400):
    """Second differences of n.x over a..b against K; returns the greatest share that was used."""
    grid = np.linspace(a, b, n + 1)
    m = Motion(chain, step, Budget(), list(grid), [(0, n)])
    r, t = m.pose(frame, body)
    state, h, used = m.state(frame, body), (b - a) / n, 0.0
    rho = state.rho(points)
    rng = np.random.default_rng(seed)
    for p, d in zip(points, rho):
        x = np.einsum("mij,j->mi", r, p) + t
        acc = (x[2:] - 2 * x[1:-1] + x[:-2]) / h ** 2
        noise = 2e-14 / h ** 2 * (1 + np.abs(x).max())
        for u in list(rng.normal(size=(8, 3))) + list(np.eye(3)):
            u = u / np.linalg.norm(u)
            share = 1.0 if state.mixed or state.axis_frame is None else np.linalg.norm(np.cross(u, state.axis_frame))
            k = state.a[0] + state.speed()[0] * d * share
            most = np.abs(acc @ u).max()
            assert most <= k * 1.0001 + noise, (body, frame, most, k, noise)
            used = max(used, most / (k + noise))
    return used


def corners(seed=3, n=6):
    return np.random.default_rng(seed).uniform(-3, 3, size=(n, 3))


def test_bends_of_chains():
    """Tilted joints at rest, slides at rest and moving, equal, opposite and mixed axes."""
    u = 1 / math.sqrt(3)
    kinds = ['turn 0,0,1 1,0,2', 'turn 0,0,-1 -1,1,0', f'turn {u!r},{u!r},{u!r} 0,1,0', 'slide 1,2,0 0,0,0', 'turn 1,0,0 0,2,1']
    rng = np.random.default_rng(7)
    for trial in range(60):
        order, bodies, drives = rng.integers(0, 5, size=4), "", ""
        for i, k in enumerate(order):
            bodies += f'body {i} {i - 1} {kinds[k]} - "b"\n'
            p, q = rng.uniform(-1, 1, size=2)
            if rng.random() < 0.5:
                drives += f"drive {i} {float(p)!r} {float(p if rng.random() < 0.5 else q)!r}\n"
        file, step = step_of(bodies, drives)
        for frame in (-1, 0, 1):
            check_bends(file.carriers[0].geometry, step, 3, frame, 0.2, 0.7, corners(trial))


def test_parallel_through_tilted_does_not_cancel():
    u = 'body 0 -1 turn 0,0,1 0,0,0 - "b"\nbody 1 0 turn 1,0,0 0,0,0 - "b"\nbody 2 1 turn 0,0,-1 0,0,0 - "b"\n'
    file, step = step_of(u, "drive 0 0 1\ndrive 1 1 1\ndrive 2 0 1\n")
    state = motion_of(file, step, [0.0, 1.0], [(0, 1)]).state(-1, 2)
    assert state.mixed and state.om[0] >= 2
    file, step = step_of(u, "drive 0 0 1\ndrive 2 0 1\n")
    assert motion_of(file, step, [0.0, 1.0], [(0, 1)]).state(-1, 2).om[0] < 1e-9


CARRY = ["carry 0.1,0,0.2 -0.01 1,0.2,0.1 5 0,0.1,0 0.05 1 4 0.3,0,0 -0.1 0 0.02,0.01,0.1 4 -0.1,0.05,0.3\n",
         "carry 0,0,0 0.02 1,0,0.1 5 0,0,0 0 1 4 0,0,0 0 0 0,0,0.1 4 0.2,0,0.3\n",
         "carry 0,0,0 0.02 1,0,0.1 5 0,0,0 0.4 1 4 0,0,0 0 0 0,0,0.1 4 0,0,0.3\n"]
TIP = ["tip 0,0,0 0.3 1,0,0 0,0,0 3,1,0.5 0.1 0.9 -0.2 0.7\n", "tip 0,0,0 0.3 1,0,0 0,0,0 3,1,0.5 0.1 0.9 0.4 0.4\n",
       "tip 0,0,0 0.3 1,0,0 0,0,0 3,1,0.5 0.3 0.3 -0.2 0.7\n"]


def rolled(words, drives=""):
    bodies = 'body 0 -1 turn 0,1,0 1,0,0 - "b"\nbody 1 0 turn 0,0,1 0,0,1 - "b"\n'
    file, _ = step_of(bodies, "", 'step 2 roll "r"\n' + drives + words)
    return file, file.places[0].steps[0]


def test_bends_of_rolls():
    for words in CARRY + TIP:
        for drives in ("", "drive 0 0.3 0.3\n", "drive 0 0 0.4\ndrive 1 0.2 0.9\n", "drive 1 0.2 0.9\n"):
            file, step = rolled(words, drives)
            for body in (-1, 0, 1):
                check_bends(file.carriers[0].geometry, step, body, -1, 0.1, 0.6, corners())


def test_roll_places():
    file, step = rolled(CARRY[0])
    m = motion_of(file, step, [0.0, 0.5, 1.0], [(0, 2)])
    r, t = m.pose(-1, -1)
    tilt = np.array([[math.cos(.01), 0, -math.sin(.01)], [0, 1, 0], [math.sin(.01), 0, math.cos(.01)]])
    level = lambda p: (np.einsum("mij,j->mi", r, p) + t - [0.1, 0, 0.2]) @ tilt
    g, far = level([1, .2, .1]), level([6, .2, .1]) - [0.3, 0, 0]
    assert np.allclose(g[:, 0], np.array([1, 2.5, 4]) * math.cos(.05))
    assert np.allclose(math.cos(.1) * far[:, 1] + math.sin(.1) * far[:, 0], 0)
    low, high = g, level([5, .2, .1])
    assert np.allclose(low[:, 2], 0.1 + 0.02 * low[:, 0] + 0.01 * low[:, 1])
    assert np.allclose(high[:, 2], 0.3 - 0.1 * high[:, 0] + 0.05 * high[:, 1])
    assert np.allclose((r @ [0, 1, 0] @ tilt)[:, 2], 0)                   # y stays level
    file, step = rolled(TIP[0])
    m = motion_of(file, step, [0.0, 1.0], [(0, 1)])
    r, t = m.pose(-1, -1)
    tilt = np.array([[math.cos(.3), 0, math.sin(.3)], [0, 1, 0], [-math.sin(.3), 0, math.cos(.3)]])
    assert np.allclose(r[1] @ [1, 0, 0] + t[1], tilt @ [3, 1, .5])
    assert np.allclose(tilt.T @ r[1] @ [1, 0, 0], [math.cos(.9) * math.cos(.7), math.sin(.9) * math.cos(.7), math.sin(.7)])


def test_bends_of_samples():
    """Links, aims, carries and tips as the samples have them; tells how near K is used."""
    used = 0.0
    for file in given():
        chain = file.carriers[0].geometry
        for step in file.carriers[0].steps[:4] + file.places[0].steps[:3]:
            for body in range(len(file.carriers[0].bodies)):
                for frame in (-1, 2):
                    if frame == -1 or chain.masks[body] >> 2 & 1:
                        used = max(used, check_bends(chain, step, body, frame, 0.25, 0.5, corners(body, 3), n=60))
    assert 0.5 < used < 1.001, used
    print("   greatest share of K that was used:", round(used, 4))


def test_link_derivatives():
    for file in given():
        derivatives(file.carriers[0])


def derivatives(carrier):
    chain, h = carrier.geometry, 1e-4
    for step in carrier.steps[:3]:
        for b in range(len(carrier.bodies)):
            grid = np.array([0.5 - h, 0.5, 0.5 + h])
            q = Coordinates(chain, step, grid, grid, False).q(b).v.mid()
            jet = Coordinates(chain, step, grid[1:2] - 1e-9, grid[1:2] + 1e-9, True).q(b)
            assert abs((q[2] - q[0]) / (2 * h) - jet.d.mid()[0]) < 1e-7
            assert abs((q[2] - 2 * q[1] + q[0]) / h ** 2 - jet.dd.mid()[0]) < 1e-5
            wide = Coordinates(chain, step, np.array([0.45]), np.array([0.55]), True).q(b)
            for inner, outer in ((jet.v, wide.v), (jet.d, wide.d), (jet.dd, wide.dd)):
                assert outer.lo[0] <= inner.mid()[0] <= outer.hi[0]


def test_chord():
    rng = np.random.default_rng(5)
    s = np.linspace(0, 1, 2001)
    for _ in range(300):
        f0, f1, k = rng.normal(), rng.normal(), abs(rng.normal()) * 6
        low = float(bounds.chord(np.array(f0), np.array(f1), np.array(k)))
        worst = (f0 + (f1 - f0) * s - k / 2 * s * (1 - s)).min()   # the function that bends the most
        assert low <= worst + 1e-12 and worst - low < 1e-5
    assert bounds.chord(np.array(1.0), np.array(1.0), np.array(0.0)) == 1.0
    assert bounds.chord(np.array(1.0), np.array(1.0), np.array(np.nan)) == -np.inf
    assert bounds.chord(np.array(1.0), np.array(1.0), np.array(np.inf)) == -np.inf


def refused_model(bodies, drives="", place_records=""):
    try:
        step_of(bodies, drives, place_records)
        return None
    except Refused as e:
        return e.reason


def test_rules_of_links():
    base = 'body 0 -1 fixed "f"\n'
    for bodies, want in (
            (base + 'body 1 0 turn 0,0,1 0,0,0 0 "t"\nlink 0 0 1 3,0,0 0,2,1\n', "plane"),
            (base + 'body 1 0 turn 0,0,1 0,0,0 0 "t"\nlink 0 0 1 3,0,0 2,0,0\n', "raised angle"),
            (base + 'body 1 0 slide 1,0,0 0,0,0 0 "t"\nlink 0 0 1 1,1,0 1,0,0\n', "square"),
            (base + 'body 1 0 turn 0,0,1 0,0,0 0 "t"\nbody 2 1 turn 0,0,1 0,0,0 - "c"\nlink 0 2 1 3,0,0 0,2,0\n', "own coordinate"),
            ('body 0 -1 turn 1,0,0 0,0,0 - "f"\nbody 1 -1 turn 0,0,1 0,0,0 0 "t"\nlink 0 0 1 3,0,0 0,2,0\n', "out of its plane")):
        said = refused_model(bodies)
        assert said and want in said, (want, said)


def test_dead_points():
    """Where a link passes a dead point, or cannot reach, E is not finite: nothing can be shown there."""
    turn = 'body 0 -1 fixed "f"\nbody 1 0 turn 0,0,1 0,0,0 0 "t"\nlink 0 0 1 3,0,0 0,2,0\n'
    slide = 'body 0 -1 fixed "f"\nbody 1 0 slide 1,0,0 0,0,0 0 "t"\nlink 0 0 1 0,1,0 1,0,0\n'
    for bodies, drives in ((turn, "drive 1 3.6 5.01\n"), (turn, "drive 1 3.6 4.9999\n"), (slide, "drive 1 1.4 1\n")):
        file, step = step_of(bodies, drives)
        m = motion_of(file, step, [0.0, 1.0], [(0, 1)])
        _, reach, turns, slides = m.error(-1, 1)
        assert not np.isfinite(turns[0] + slides[0]) and m.trouble(-1, 1, 0) == 1


def test_planes_together_are_as_one_by_one():
    """Of the last proof given: bounds and numbers of many planes at once are those of each by itself."""
    together, seen = Proof._together, [0, 0, 0]

    def both(self, frame, leaves, numbers):
        moving = self._moving(frame)
        moving.prepare()
        batch = planes.Batch(leaves, [self._interval(f) for f in leaves])
        leaf, a, b, low = planes.shown(moving, self.still, batch)
        asked = numbers.asked(a, b, batch.touched[leaf])
        for i in range(0, len(leaves), 10):
            f, mine = leaves[i], leaf == i
            one = self._plane(f, self._interval(f), moving, (f.s1 - f.s0) ** 2, np.full((len(f.a), len(f.b)), -np.inf))
            assert np.allclose(low[mine], one.ravel(), rtol=0, atol=1e-12)
            assert np.array_equal(asked[mine], self._asked(f).ravel())
            seen[0], seen[1], seen[2] = seen[0] + 1, seen[1] + one.size, seen[2] + f.touched
        return together(self, frame, leaves, numbers)

    Proof._together = both
    with open(sys.argv[-1], "rb") as f:
        lines = Lines(f.read())
    ClaimReader(Reader(lines, Budget()).read(), lines, Budget()).run()
    Proof._together = together
    assert seen[0] > 500 and seen[1] > seen[0] and seen[2] > 10, seen


def main():
    for name, test in list(globals().items()):
        if name.startswith("test_"):
            test()
            print("ok", name[5:].replace("_", " "), flush=True)


if __name__ == "__main__":
    main()
