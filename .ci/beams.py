#!/usr/bin/env python3
"""Beams solved a second way, in exact fractions: in each field between two places
where something begins, ends or acts the deflection is a polynomial with four
free constants, and all of them follow at once from continuity and from what each
place does to shear and moment. Nothing here is taken from model/frame. Prints
the answers that its test holds: beam, quantity, place, value.
"""
from fractions import Fraction as F


def solve(rows, right):
    n = len(rows)
    m = [row + [r] for row, r in zip(rows, right)]
    for i in range(n):
        p = next(k for k in range(i, n) if m[k][i] != 0)
        m[i], m[p] = m[p], m[i]
        m[i] = [v / m[i][i] for v in m[i]]
        for k in range(n):
            if k != i and m[k][i] != 0:
                m[k] = [a - m[k][i] * b for a, b in zip(m[k], m[i])]
    return [row[n] for row in m]


def derivative(p, times):
    for _ in range(times):
        p = [k * c for k, c in enumerate(p)][1:]
    return p or [F(0)]


def value(p, x):
    return sum(c * x**k for k, c in enumerate(p))


def beam(name, stretches, supports, points, lines, asked):
    """stretches (length, EI); supports (at, spring or None for rigid);
    points (at, down, turn); lines (from, to, start, end); down is positive."""
    ends, at = [], F(0)
    for length, _ in stretches:
        at += F(length)
        ends.append(at)
    places = sorted({F(0), *ends, *(F(s[0]) for s in supports), *(F(p[0]) for p in points),
                     *(F(v) for q in lines for v in q[:2])})
    fields = list(zip(places, places[1:]))
    stiff = [next(F(ei) for (_, ei), e in zip(stretches, ends) if b <= e) for _, b in fields]

    def load(a, b):  # c0 + c1 x of a field
        c0 = c1 = F(0)
        for f, t, s, e in lines:
            if F(f) <= a and b <= F(t):
                slope = (F(e) - F(s)) / (F(t) - F(f))
                c0, c1 = c0 + F(s) - slope * F(f), c1 + slope
        return c0, c1

    particular = []
    for (a, b), ei in zip(fields, stiff):
        c0, c1 = load(a, b)
        particular.append([F(0)] * 4 + [c0 / 24 / ei, c1 / 120 / ei])
    n, s = len(fields), len(supports)
    size = 4 * n + s  # constants of each field, reaction of each support
    rows, right = [], []

    def equation(terms, known=F(0)):
        """terms (field, derivative, place, factor) and reactions: sum is known."""
        row = [F(0)] * size
        for t in terms:
            if len(t) == 2:
                row[4 * n + t[0]] += t[1]
                continue
            i, d, x, f = t
            for k in range(4):
                unit = [F(0)] * 4
                unit[k] = F(1)
                row[4 * i + k] += f * value(derivative(unit, d), x)
            known -= f * value(derivative(particular[i], d), x)
        rows.append(row)
        right.append(known)

    # with w down: moment M = -EI w'', shear V = -EI w'''
    for j, x in enumerate(places):
        left, here = j - 1, j
        down = sum(F(p[1]) for p in points if F(p[0]) == x)
        turn = sum(F(p[2]) for p in points if F(p[0]) == x)
        holds = [(k, F(-1)) for k, q in enumerate(supports) if F(q[0]) == x]
        shear, moment = list(holds), []
        if left >= 0:
            shear += [(left, 3, x, stiff[left])]  # -V left
            moment += [(left, 2, x, stiff[left])]
        if here < n:
            shear += [(here, 3, x, -stiff[here])]  # +V right
            moment += [(here, 2, x, -stiff[here])]
        equation(shear, -down)  # V right - V left = reaction - load
        equation(moment, turn)  # M right - M left = couple
        if 0 < j < n:
            equation([(left, 0, x, F(1)), (here, 0, x, F(-1))])
            equation([(left, 1, x, F(1)), (here, 1, x, F(-1))])
    for k, (at, spring) in enumerate(supports):
        x = F(at)
        i = min(places.index(x), n - 1)
        if spring is None:
            equation([(i, 0, x, F(1))])
        else:
            equation([(i, 0, x, F(spring)), (k, F(-1))])
    found = solve(rows, right)
    curves = [[a + b for a, b in zip(found[4 * i:4 * i + 4] + [F(0)] * 2, particular[i])] for i in range(n)]
    for k, (at, _) in enumerate(supports):
        print(f"{name},reaction,{float(F(at))!r},{float(found[4 * n + k])!r}")
    for x in map(F, asked):
        i = max(k for k, (a, _) in enumerate(fields) if a <= x)
        w = curves[i]
        for what, v in (("moment", -stiff[i] * value(derivative(w, 2), x)), ("shear", -stiff[i] * value(derivative(w, 3), x)),
                        ("deflection", value(w, x)), ("slope", value(derivative(w, 1), x))):
            print(f"{name},{what},{float(x)!r},{float(v)!r}")


EIGHTHS = [F(k, 8) for k in range(1, 80, 7)]
# A stringer over four headers, one of them on a jack that gives, both ends
# overhanging: roof over part of it, a haunch's triangle at its end, a cart.
beam("stringer", [(10, 900)], [("1", None), ("3.5", None), ("6.25", 4000), ("9", None)],
     [("4.75", "7.5", 0)], [("0.5", "6", "9.25", "9.25"), ("8", "10", "3", "12")], EIGHTHS)
# Stepwise stiffness, all supports springs, a couple, overlapping loads, uplift.
beam("stepped", [(2, 500), ("1.5", 2000), ("6.5", "750.5")], [("0", 1500), ("2.75", 800), ("7.5", 12000)],
     [("3.5", "-4", "2.5"), ("10", "6", "-1.25")], [("0", "10", "2", "5"), ("1", "4.5", "6", "0"), ("4.5", "5", "-3", "8")], EIGHTHS)
