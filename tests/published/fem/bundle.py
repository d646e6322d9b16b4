#!/usr/bin/env python3
"""Temperatures in the cross-section of wire bundles, by two-dimensional finite elements.

An outside reference for `physics::bundle`. It shares with our code the laws of still air around a
round outside, and nothing of how heat gets there: here every wire lies in its own place.

Set up, with the versions that bundle.toml was made with:

    python3 -m venv /tmp/fem-venv
    /tmp/fem-venv/bin/pip install scikit-fem==12.0.2 scipy==1.17.1 numpy==2.4.6

Make bundle.toml anew (one core, some eight minutes, 4 GB):

    OMP_NUM_THREADS=1 /tmp/fem-venv/bin/python tests/published/fem/bundle.py

Solve what stands in bundle.toml again on a coarse mesh (under half a minute). Ends with 1 where a rise
differs by more than 1 %, where heat is lost, or where the mesh misses a closed form:

    OMP_NUM_THREADS=1 /tmp/fem-venv/bin/python tests/published/fem/bundle.py --check
"""

import sys
import tomllib
from dataclasses import dataclass, field, replace
from math import log, pi, sqrt
from pathlib import Path
from time import perf_counter

import numpy as np
import scipy
import skfem
from scipy.optimize import minimize
from scipy.sparse import coo_matrix
from scipy.sparse.linalg import splu
from scipy.spatial import Delaunay, cKDTree
from scipy.spatial.distance import cdist
from skfem import Basis, BilinearForm, ElementTriP2, FacetBasis, Functional, LinearForm, MeshTri, MeshTri2
from skfem.mapping import MappingIsoparametric

HERE = Path(__file__).parent
TABLE = HERE / "bundle.toml"
DATE = "2026-11-27"

ZERO = 273.15
AMBIENT_C = 40.0
ALPHA = 0.00393
SIGMA = 5.670374419e-8
GRAVITY = 9.80665
EMISSIVITY = 0.9

COPPER_K, COPPER_J = 385.0, 8960.0 * 385.0
AIR_J = 1.1 * 1005.0
# Of insulation: W/m K and J/m3 K.
PLASTIC = {"PVC": (0.17, 1.7e6), "cross-linked": (0.286, 2.4e6)}
SLEEVE_K, SLEEVE_J = 0.2, 1.7e6

# Thin-wall metric wire: copper and outside diameter in mm, milliohm per metre.
SIZES = {
    "0.75 mm²": (1.3, 1.9, 24.7),
    "1 mm²": (1.5, 2.1, 18.5),
    "1.5 mm²": (1.8, 2.4, 12.7),
    "2.5 mm²": (2.2, 3.0, 7.6),
    "6 mm²": (3.4, 4.3, 3.14),
}

# Air left between two wires, and between a wire and the outside: parts of a diameter. Wires that
# touch in one point would leave the mesher a cusp.
APART = 0.001
# The same with wires that are not drawn up as tight: tells how much contact matters.
LOOSE = 0.01

TIMES = [0.3, 1.0, 3.0, 10.0, 30.0, 100.0, 300.0, 1000.0]
# A transient ends where the hottest copper passes this.
TOO_HOT_C = 250.0
# Largest move of the hottest rise between the last two meshes, and of heat out from heat made.
MESH_WITHIN, HEAT_WITHIN = 0.005, 0.001
CHECK_WITHIN = 0.01

# ---------------------------------------------------------------------------------------------
# The laws of the outside.

# Dry air: celsius, W/m K, m2/s, Prandtl number.
AIR = np.array([
    (-40, 0.02057, 1.008e-5, 0.7436), (-20, 0.02211, 1.169e-5, 0.7408), (0, 0.02364, 1.338e-5, 0.7362),
    (20, 0.02514, 1.516e-5, 0.7309), (40, 0.02662, 1.702e-5, 0.7255), (45, 0.02699, 1.750e-5, 0.7241),
    (60, 0.02808, 1.896e-5, 0.7202), (80, 0.02953, 2.097e-5, 0.7154), (100, 0.03095, 2.306e-5, 0.7111),
    (120, 0.03235, 2.522e-5, 0.7073), (140, 0.03374, 2.745e-5, 0.7041), (160, 0.03511, 2.975e-5, 0.7014),
    (180, 0.03646, 3.212e-5, 0.6992), (200, 0.03779, 3.455e-5, 0.6974), (250, 0.04104, 4.091e-5, 0.6946),
    (300, 0.04418, 4.765e-5, 0.6935),
])


def air(celsius):
    """Conductivity, kinematic viscosity and Prandtl number of air."""
    return tuple(np.interp(celsius, AIR[:, 0], AIR[:, column]) for column in (1, 2, 3))


def leaving(d, emissivity, rise):
    """What a round outside sheds for each kelvin, W/m2 K: Churchill and Chu, and radiation."""
    ambient = AMBIENT_C + ZERO
    rise = max(rise, 1e-9)
    k, nu, pr = air(AMBIENT_C + rise / 2)
    rayleigh = GRAVITY / (ambient + rise / 2) * rise * d**3 * pr / nu**2
    root = 0.60 + 0.387 * rayleigh ** (1 / 6) / (1 + (0.559 / pr) ** (9 / 16)) ** (8 / 27)
    hot = ambient + rise
    return root**2 * k / d + emissivity * SIGMA * (hot**2 + ambient**2) * (hot + ambient)


def gap_k(d, bore, inner_rise, bore_rise):
    """Air between bundle and sleeve: conducts, and radiates as if it conducted that much more."""
    inner, outer = AMBIENT_C + ZERO + inner_rise, AMBIENT_C + ZERO + bore_rise
    emissivity = 1 / (1 / EMISSIVITY + d / bore * (1 / EMISSIVITY - 1))
    radiated = emissivity * SIGMA * (inner**2 + outer**2) * (inner + outer)
    return air((inner + outer) / 2 - ZERO)[0] + radiated * d / 2 * log(bore / d)


# ---------------------------------------------------------------------------------------------
# What is solved.


@dataclass
class Wire:
    size: str
    insulation: str
    amps: float
    x: float = 0.0  # m
    y: float = 0.0

    conductor_d: float = field(init=False)
    outside_d: float = field(init=False)
    r20: float = field(init=False)

    def __post_init__(self):
        conductor, outside, milliohm = SIZES[self.size]
        self.conductor_d, self.outside_d, self.r20 = conductor * 1e-3, outside * 1e-3, milliohm * 1e-3

    @property
    def cold(self):
        """Heat at 20 C, W/m."""
        return self.amps**2 * self.r20


@dataclass
class Mix:
    name: str
    wires: list
    enclosing_d: float  # m
    sleeve: dict | None = None
    # Tape drawn straight from wire to wire, instead of the circle around them all.
    close: bool = False
    # Transients: every current times this, from ambient.
    factors: tuple = ()

    @property
    def outside_d(self):
        """Diameter of the bundle, or of the circle that is as long as its tape, m."""
        return wrap_of(self.wires).round_d() * 1e-3 if self.close else self.enclosing_d


def hexagon(count, d, apart=APART):
    """The `count` places nearest the middle of a hexagonal stack, innermost first."""
    pitch = d * (1 + apart)
    places = [(i + j / 2, j * sqrt(0.75)) for i in range(-5, 6) for j in range(-5, 6)]
    places.sort(key=lambda p: (round(p[0] ** 2 + p[1] ** 2, 6), round(np.arctan2(p[1], p[0]), 6)))
    return [(x * pitch, y * pitch) for x, y in places[:count]]


def enclosing(places, diameters, apart=APART):
    """Diameter of the circle around the origin that holds all wires."""
    return 2 * max(np.hypot(x, y) + d * (0.5 + apart) for (x, y), d in zip(places, diameters))


def packed(diameters, pull, seed=17, tries=40):
    """Places of unequal wires without overlap in a small circle; a wire with more pull lies further in.
    Gives places and the circle's diameter, both in the unit of the diameters."""
    r = np.asarray(diameters) / 2
    pull = np.asarray(pull, dtype=float)
    n = len(r)
    one, other = np.triu_indices(n, 1)
    least = (r[one] + r[other]) * (1 + APART)
    to_edge = r * (1 + 2 * APART)
    random = np.random.default_rng(seed)

    def apart(v):
        p = v[: 2 * n].reshape(n, 2)
        step = p[one] - p[other]
        return np.concatenate([(step**2).sum(1) - least**2, (v[-1] - to_edge) ** 2 - (p**2).sum(1)])

    def apart_slope(v):
        p = v[: 2 * n].reshape(n, 2)
        step = p[one] - p[other]
        rows = np.zeros((len(one) + n, 2 * n + 1))
        at = np.arange(len(one))
        for axis in (0, 1):
            rows[at, 2 * one + axis] = 2 * step[:, axis]
            rows[at, 2 * other + axis] = -2 * step[:, axis]
            rows[len(one) + np.arange(n), 2 * np.arange(n) + axis] = -2 * p[:, axis]
        rows[len(one):, -1] = 2 * (v[-1] - to_edge)
        return rows

    def cost(v):
        p = v[: 2 * n].reshape(n, 2)
        return v[-1] + (pull[:, None] * p**2).sum()

    def cost_slope(v):
        return np.append((2 * pull[:, None] * v[: 2 * n].reshape(n, 2)).ravel(), 1.0)

    best = None
    for _ in range(tries):
        # The wires with the most pull start innermost.
        order = np.argsort(-pull + 1e-3 * random.random(n))
        reach = np.empty(n)
        reach[order] = 1.5 * np.sqrt(np.cumsum(r[order] ** 2))
        turn = random.random(n) * 2 * pi
        start = np.column_stack([reach * np.cos(turn), reach * np.sin(turn)]).ravel()
        start = np.append(start, 1.5 * reach.max())
        found = minimize(cost, start, jac=cost_slope, method="SLSQP", options={"maxiter": 500},
                         bounds=[(None, None)] * (2 * n) + [(r.max(), None)],
                         constraints=[{"type": "ineq", "fun": apart, "jac": apart_slope}])
        if apart(found.x).min() > -1e-6 and (best is None or found.fun < best.fun):
            best = found
    places = best.x[: 2 * n].reshape(n, 2)
    # What is left of overlap is taken out by drawing all apart a little.
    short = (least / np.linalg.norm(places[one] - places[other], axis=1)).max()
    places = places * max(short, 1.0)
    return [tuple(p) for p in places], 2 * (np.linalg.norm(places, axis=1) + to_edge).max()


def even(name, size, insulation, count, loaded, amps, **more):
    """Equal wires in a hexagonal stack, the loaded ones innermost."""
    d = SIZES[size][1] * 1e-3
    places = hexagon(count, d)
    wires = [Wire(size, insulation, amps if i < loaded else 0.0, *p) for i, p in enumerate(places)]
    return Mix(name, wires, enclosing(places, [d] * count), **more)


def uneven(name, insulation, rows, **more):
    """Wires given as (size, count, amps), the most heat for its area innermost."""
    wires = [Wire(size, insulation, amps) for size, count, amps in rows for _ in range(count)]
    dense = [w.cold / w.outside_d**2 for w in wires]
    pull = [0.02 * (0.1 + q / max(dense)) for q in dense]
    places, d = packed([w.outside_d * 1e3 for w in wires], pull)
    wires = [replace(w, x=x * 1e-3, y=y * 1e-3) for w, (x, y) in zip(wires, places)]
    return Mix(name, wires, d * 1e-3, **more)


def mixes():
    """All that bundle.toml holds."""
    sleeve = {"name": "PVC sleeve 20 mm", "bore": 20.0e-3, "wall": 1.0e-3}
    rows = [("6 mm²", 3, 36.0), ("1.5 mm²", 5, 14.0), ("1 mm²", 6, 0.0), ("0.75 mm²", 6, 0.0)]
    return [
        even("seven alike, all loaded", "2.5 mm²", "PVC", 7, 7, 20.0, factors=(1.0,)),
        uneven("twenty mixed, eight loaded", "PVC", rows, factors=(1.0,)),
        even("one of nineteen, in a sleeve", "2.5 mm²", "PVC", 19, 1, 40.0, sleeve=sleeve,
             factors=(1.0, 2.0, 3.5)),
        even("thirty-seven, twelve loaded", "1 mm²", "cross-linked", 37, 12, 11.0),
        # Solved once the constants of `physics::bundle` stood: no constant has seen it.
        uneven("eleven mixed, nine loaded", "cross-linked",
               [("6 mm²", 2, 38.0), ("2.5 mm²", 4, 19.0), ("1.5 mm²", 3, 11.0), ("0.75 mm²", 2, 0.0)], factors=(1.0,)),
    ]


# ---------------------------------------------------------------------------------------------
# The mesh: points on all curves, then Ruppert's refinement. Lengths in mm.
# Curves 2i and 2i + 1 are the copper and the outside of wire i, then the bundle, the bore, the skin.
# A region has the number of the curve that bounds it outwards. A place on a curve is a turn, 0 to 2 pi.


class Circle:
    def __init__(self, x, y, r, first=0.0):
        self.middle, self.r = np.array([x, y]), r
        self.start = first + np.arange(20) * 2 * pi / 20

    def at(self, turn):
        return self.middle + self.r * np.column_stack([np.cos(turn), np.sin(turn)])

    def onto(self, points):
        out = points - self.middle
        return self.middle + out * (self.r / np.hypot(*out.T))[:, None]

    def inside(self, points):
        return np.hypot(*(points - self.middle).T) < self.r


class Wrap:
    """Tape drawn straight from wire to wire, around circles given as (x, y, r) about the origin."""

    def __init__(self, circles):
        middle, r = circles[:, :2], circles[:, 2]
        # From an odd angle, so that no two wires reach equally far.
        turn = 0.1234
        now = int(np.argmax(middle @ (np.cos(turn), np.sin(turn)) + r))
        last, wire, end = turn + 2 * pi, [], []
        while True:
            step = middle - middle[now]
            far = np.hypot(*step.T)
            far[now] = np.inf
            lean = np.arctan2(step[:, 1], step[:, 0]) - np.arccos((r[now] - r) / far)
            ahead = (lean - turn + 1e-9) % (2 * pi) - 1e-9
            ahead[now] = np.inf
            # Of wires along one straight line the farthest is taken.
            then = np.lexsort((-far, ahead.round(7)))[0]
            if turn + ahead[then] > last:
                break
            turn += ahead[then]
            wire.append(now)
            end.append(turn)
            now = then
        end = np.array(end)
        begin = np.roll(end, 1)
        begin[0] -= 2 * pi
        self.middle, self.r, self.begin, self.sweep = middle[wire], r[wire], begin, end - begin
        normal = np.column_stack([np.cos(end), np.sin(end)])
        self.tail = self.middle + self.r[:, None] * normal
        ahead = np.roll(self.middle, -1, axis=0) + np.roll(self.r, -1)[:, None] * normal
        straight = np.hypot(*(ahead - self.tail).T)
        self.along = (ahead - self.tail) / straight[:, None]
        self.straight = straight
        # Arc and straight piece by turns.
        self.length = np.column_stack([self.r * self.sweep, straight]).ravel()
        self.reach = np.append(0.0, np.cumsum(self.length))
        joints = self.reach[:-1] / self.reach[-1]
        self.start = np.sort(np.append(joints, joints + self.length / self.reach[-1] / 2)) * 2 * pi

    def at(self, turn):
        way = (turn / (2 * pi) % 1) * self.reach[-1]
        piece = np.clip(np.searchsorted(self.reach, way, side="right") - 1, 0, len(self.length) - 1)
        way, piece, on_arc = way - self.reach[piece], piece // 2, piece % 2 == 0
        angle = self.begin[piece] + way / self.r[piece]
        arc = self.middle[piece] + self.r[piece, None] * np.column_stack([np.cos(angle), np.sin(angle)])
        return np.where(on_arc[:, None], arc, self.tail[piece] + self.along[piece] * way[:, None])

    def onto(self, points):
        """The nearest points of the tape."""
        out = points[:, None] - self.middle
        half = self.sweep / 2
        off = np.arctan2(out[:, :, 1], out[:, :, 0]) - self.begin - half
        angle = self.begin + half + np.clip((off + pi) % (2 * pi) - pi, -half, half)
        arc = self.middle + self.r[:, None] * np.stack([np.cos(angle), np.sin(angle)], axis=2)
        way = np.clip(((points[:, None] - self.tail) * self.along).sum(axis=2), 0, self.straight)
        every = np.concatenate([arc, self.tail + way[:, :, None] * self.along], axis=1)
        nearest = ((every - points[:, None]) ** 2).sum(axis=2).argmin(axis=1)
        return every[np.arange(len(points)), nearest]

    def inside(self, points):
        edge = self.onto(points)
        return ((points - edge) * edge).sum(axis=1) < 0

    def round_d(self):
        """Diameter of the circle that is as long."""
        return self.reach[-1] / pi


def wrap_of(wires):
    """Tape that all but touches the wires that it is drawn over."""
    return Wrap(np.array([(w.x * 1e3, w.y * 1e3, w.outside_d * 500 * (1 + 2 * APART)) for w in wires]))


def curves_of(mix, spread=1.0):
    """All curves; `spread` draws the wires apart."""
    rows = []
    for w in mix.wires:
        x, y = w.x * 1e3 * spread, w.y * 1e3 * spread
        rows += [(x, y, w.conductor_d * 500), (x, y, w.outside_d * 500)]
    rows.append((0.0, 0.0, mix.outside_d * 500 * spread))
    if mix.sleeve:
        bore = mix.sleeve["bore"] * 500
        rows += [(0.0, 0.0, bore), (0.0, 0.0, bore + mix.sleeve["wall"] * 1e3)]
    # Every circle begins elsewhere, so that no two wires are meshed as mirror images.
    curves = [Circle(*row, first=(i * 0.61803) % 1) for i, row in enumerate(rows)]
    if mix.close:
        curves[2 * len(mix.wires)] = wrap_of(mix.wires)
    return curves


class Points:
    """Points on curves, and the stretches between neighbours."""

    def __init__(self, curves):
        self.curves = curves
        self.turns = [curve.start for curve in curves]

    def places(self):
        return np.vstack([curve.at(turns) for curve, turns in zip(self.curves, self.turns)])

    def stretches(self):
        """Curve, turn halfway, middle and half length of the chord."""
        rows = []
        for i, (curve, turns) in enumerate(zip(self.curves, self.turns)):
            ahead = np.append(turns[1:], turns[0] + 2 * pi)
            one = curve.at(turns)
            other = np.roll(one, -1, axis=0)
            half = np.hypot(*(other - one).T) / 2
            rows.append(np.column_stack([np.full(len(turns), i), (turns + ahead) / 2, (one + other) / 2, half]))
        return np.vstack(rows)

    def split(self, stretches):
        for i in np.unique(stretches[:, 0]).astype(int):
            new = stretches[stretches[:, 0] == i, 1]
            first = self.turns[i][0]
            self.turns[i] = np.sort(np.append(self.turns[i], first + (new - first) % (2 * pi)))


def triangulated(curves, coarse=1.6):
    """Points (mm) and corners of triangles that keep to all curves. `coarse` is the largest
    circumradius over shortest side."""
    on_curves = Points(curves)
    # One point near each middle, a little off so that it is no mirror either.
    middles = [curve.middle for curve in curves if isinstance(curve, Circle)]
    free = np.unique(np.round(middles, 9), axis=0) + (0.013, 0.007)
    largest = abs(curves[-1].at(curves[-1].start)).max() / 8
    for _ in range(400):
        points = np.vstack([on_curves.places(), free])
        lines = on_curves.stretches()
        # A stretch must have no other point in the circle over it.
        near, _ = cKDTree(points).query(lines[:, 2:4])
        crowded = near < 0.999 * lines[:, 4]
        if crowded.any():
            on_curves.split(lines[crowded])
            continue
        corners = Delaunay(points).simplices
        a, b, c = (points[corners[:, i]] for i in range(3))
        ab, ac = b - a, c - a
        twice = ab[:, 0] * ac[:, 1] - ab[:, 1] * ac[:, 0]
        sides = np.linalg.norm([b - a, c - b, a - c], axis=2)
        # Along straight tape rounding leaves triangles of no height.
        flat = abs(twice) < 1e-9 * sides.max(axis=0) ** 2
        twice[flat] = np.inf
        radius = sides.prod(axis=0) / (2 * abs(twice))
        ab2, ac2 = (ab**2).sum(1), (ac**2).sum(1)
        middle = a + np.column_stack([ac[:, 1] * ab2 - ab[:, 1] * ac2,
                                      ab[:, 0] * ac2 - ac[:, 0] * ab2]) / (2 * twice[:, None])
        poor = (radius > coarse * sides.min(axis=0)) | (radius > largest)
        poor &= curves[-1].inside(middle)
        if not poor.any():
            return points, corners[~flat].T
        # The largest first, and none near another.
        poor = np.flatnonzero(poor)
        poor = poor[np.argsort(-radius[poor], kind="stable")]
        middle, radius = middle[poor], radius[poor]
        around = cKDTree(middle).query_ball_point(middle, 0.7 * radius)
        taken = np.ones(len(middle), dtype=bool)
        for i, others in enumerate(around):
            if taken[i]:
                for j in others:
                    taken[j] = taken[j] and j <= i
        middle = middle[taken]
        # Where a new point would crowd a stretch, the stretch is split instead.
        crowds = np.zeros(len(middle), dtype=bool)
        crowded = np.zeros(len(lines), dtype=bool)
        for start in range(0, len(middle), 500):
            inside = cdist(middle[start:start + 500], lines[:, 2:4]) < lines[:, 4]
            crowds[start:start + 500] = inside.any(axis=1)
            crowded |= inside.any(axis=0)
        if crowded.any():
            on_curves.split(lines[crowded])
        free = np.vstack([free, middle[~crowds]])
    raise RuntimeError("the mesh does not settle")


def regions_of(points, corners, curves):
    """Which region each triangle lies in."""
    middle = points[corners].mean(axis=0)
    region = np.full(corners.shape[1], len(curves) - 1)
    # From the last curve to the first: sleeve and bundle, then each wire's outside before its copper.
    for i in range(len(curves) - 2, -1, -1):
        region[curves[i].inside(middle)] = i
    return region


def onto_curves(at, curve, curves):
    """Moves points onto their curves."""
    moved = at.T.copy()
    for i in np.unique(curve):
        moved[curve == i] = curves[i].onto(moved[curve == i])
    return moved.T


def borders(mesh, region):
    """Facets between regions or on the skin, and the curve of each."""
    one, other = region[mesh.f2t[0]], region[mesh.f2t[1]]
    skin = mesh.f2t[1] < 0
    facets = np.flatnonzero(skin | (one != other))
    curve = np.where(skin, one, np.minimum(one, other))[facets]
    return facets, curve


@dataclass
class Ground:
    """A curved mesh, in metres, with what lies where."""
    mesh: MeshTri2
    region: np.ndarray
    facets: np.ndarray
    curve: np.ndarray


def ground(points, corners, curves, halvings):
    """The mesh with every side halved so many times, and bent to the curves."""
    mesh = MeshTri(np.ascontiguousarray(points.T), np.ascontiguousarray(corners))
    region = regions_of(points, mesh.t, curves)
    for _ in range(halvings):
        facets, curve = borders(mesh, region)
        old = mesh.p.shape[1]
        mesh = mesh.refined()
        p = mesh.p.copy()
        p[:, old + facets] = onto_curves(p[:, old + facets], curve, curves)
        mesh, region = MeshTri(p, mesh.t), np.tile(region, 4)
    curved = MeshTri2.from_mesh(mesh)
    facets, curve = borders(curved, region)
    at = curved.dofs.facet_dofs[0, facets]
    p = curved.doflocs.copy()
    p[:, at] = onto_curves(p[:, at], curve, curves)
    return Ground(replace(curved, doflocs=p * 1e-3), region, facets, curve)


# ---------------------------------------------------------------------------------------------
# Finite elements of the second order. Unknown is the rise over ambient.


@BilinearForm
def conducted(u, v, w):
    return w.k * (u.grad[0] * v.grad[0] + u.grad[1] * v.grad[1])


@BilinearForm
def held(u, v, w):
    return w.c * u * v


@BilinearForm
def shed(u, v, _):
    return u * v


@LinearForm
def made(v, w):
    return w.c * v


@LinearForm
def mean(v, _):
    return 1.0 * v


@Functional
def crossing(w):
    return -w.k * (w.rise.grad[0] * w.n[0] + w.rise.grad[1] * w.n[1])


class Mapping(MappingIsoparametric):
    """A triangle of a micrometre, centimetres from the origin, can't be told to the usual 1e-12."""

    def invF(self, x, tind=None):
        return super().invF(x, tind, newton_tol=1e-9)


class Section:
    """The matrices of one mix on one mesh."""

    def __init__(self, mix, ground):
        self.mix = mix
        n = len(mix.wires)
        mesh, region = ground.mesh, ground.region
        basis = Basis(mesh, ElementTriP2(), intorder=4)
        bent = basis.mapping.detDF(basis.X)
        assert (abs(np.sign(bent).sum(axis=1)) == bent.shape[1]).all(), "a curved triangle is turned over"
        last = 2 * n + (2 if mix.sleeve else 0)
        k, c = np.empty(last + 1), np.empty(last + 1)
        for i, w in enumerate(mix.wires):
            k[2 * i], c[2 * i] = COPPER_K, COPPER_J
            k[2 * i + 1], c[2 * i + 1] = PLASTIC[w.insulation]
        k[2 * n], c[2 * n] = air(AMBIENT_C)[0], AIR_J
        if mix.sleeve:
            # The gap's conductivity is told later.
            k[2 * n + 1:], c[2 * n + 1:] = (0.0, SLEEVE_K), (AIR_J, SLEEVE_J)

        def spread(by_region):
            return basis.with_element(skfem.ElementTriP0()).interpolate(by_region[region])

        self.stiff = conducted.assemble(basis, k=spread(k)).tocsc()
        self.heavy = held.assemble(basis, c=spread(c)).tocsc()
        copper = np.zeros(last + 1)
        copper[: 2 * n: 2] = 1.0
        # Copper curves share no point, so one load vector is split among the wires.
        whole = made.assemble(basis, c=spread(copper))
        load = []
        for i in range(n):
            own = np.unique(basis.element_dofs[:, region == 2 * i])
            load.append(coo_matrix((whole[own], (own, np.full(len(own), i))), shape=(basis.N, n)))
        self.load = sum(load).tocsc()
        self.area = np.asarray(self.load.sum(axis=0)).ravel()

        mapping = Mapping(mesh, mesh.elem(), mesh.bndelem)

        def edge(curve):
            facets = ground.facets[ground.curve == curve]
            return FacetBasis(mesh, ElementTriP2(), mapping, facets=facets, intorder=4)

        def mean_on(curve):
            b = mean.assemble(edge(curve))
            return b / b.sum()

        self.skin_basis, self.skin_k = edge(last), k[last]
        self.skin = shed.assemble(self.skin_basis).tocsc()
        self.skin_length = self.skin.sum()
        self.skin_mean, self.outside_mean = mean_on(last), mean_on(2 * n)
        if mix.sleeve:
            gap = np.zeros(last + 1)
            gap[2 * n + 1] = 1.0
            self.gap = conducted.assemble(basis, k=spread(gap)).tocsc()
            self.bore_mean = mean_on(2 * n + 1)
        self.cold = np.array([w.cold for w in mix.wires])
        self.points = basis.N

    def skin_d(self):
        s = self.mix.sleeve
        return s["bore"] + 2 * s["wall"] if s else self.mix.outside_d

    def laws(self, rise):
        """What leaves the skin for each kelvin, and the gap's conductivity, with this rise."""
        h = leaving(self.skin_d(), EMISSIVITY, self.skin_mean @ rise)
        if not self.mix.sleeve:
            return h, 0.0
        inner, bore = self.outside_mean @ rise, self.bore_mean @ rise
        return h, gap_k(self.mix.outside_d, self.mix.sleeve["bore"], inner, bore)

    def matrix(self, h, k):
        a = self.stiff + h * self.skin
        return a + k * self.gap if self.mix.sleeve else a

    def wires(self, rise):
        """Mean rise of each wire's copper."""
        return (self.load.T @ rise) / self.area

    def heat(self, wires, factor=1.0):
        """Heat of each wire, W/m."""
        return factor**2 * self.cold * (1 + ALPHA * (AMBIENT_C + wires - 20))


def solver(a):
    return splu(a.tocsc(), permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options={"SymmetricMode": True})


@dataclass
class Steady:
    rise: np.ndarray
    wires: np.ndarray  # mean rise of each wire's copper, K
    outside: float
    skin: float
    made: float  # W/m
    out: float
    crossing: float  # heat through the skin by the slope of temperature there
    # Of the finest mesh.
    points: int = 0
    moves: float = 0.0
    lost: float = 0.0


def steady(section, start=None, within=1e-7):
    """The steady state. Within one pass of the laws heat is a straight line of temperature, so the
    wires' own heat is solved for at once."""
    loaded = np.flatnonzero(section.cold)
    load = section.load[:, loaded].toarray() / section.area[loaded]
    laws = np.array(start if start is not None else (12.0, 0.045))
    asked, told, before = None, None, None
    for _ in range(60):
        solve = solver(section.matrix(*laws)).solve
        each = solve(load)
        between = (load.T @ each)
        cold = section.cold[loaded]
        base = cold * (1 + ALPHA * (AMBIENT_C - 20))
        heat = np.linalg.solve(np.eye(len(loaded)) - ALPHA * cold[:, None] * between, base)
        rise = each @ heat
        # The laws are followed by the secant of the last two passes.
        found = np.array(section.laws(rise))
        follow = found
        if asked is not None:
            moved = laws - asked
            slope = np.divide(found - told, moved, out=np.zeros(2), where=moved != 0)
            follow = laws + (found - laws) / (1 - np.clip(slope, -2.0, 0.8))
        asked, told, laws = laws, found, follow
        hottest = section.wires(rise).max()
        if before is not None and abs(hottest - before) < within * hottest:
            break
        before = hottest
    wires = section.wires(rise)
    skin = section.skin_mean @ rise
    d = section.skin_d()
    out = pi * d * leaving(d, EMISSIVITY, skin) * skin
    slope = section.skin_basis.interpolate(rise)
    return Steady(rise, wires, section.outside_mean @ rise, skin, section.heat(wires).sum(), out,
                  crossing.assemble(section.skin_basis, rise=slope, k=section.skin_k)), laws


@dataclass
class Transient:
    factor: float
    hottest: list  # rise of the hottest copper at TIMES, K; shorter where it grows too hot
    too_hot_s: float | None
    moves: float = 0.0


def transient(section, factor, steps, within=1e-7):
    """From ambient, currents on at 0 s. Two implicit stages a step (Alexander's, second order, no
    ringing); `steps` of them between one time of the list and the next."""
    part = 1 - sqrt(0.5)
    rise = np.zeros(section.points)
    hottest, seconds = [], 0.0
    track = [(0.0, 0.0)]
    for until in TIMES:
        step = (until - seconds) / steps
        h, k = section.laws(rise)
        solve = solver(section.heavy + part * step * section.matrix(h, k)).solve

        def slope_and_state(base, guess):
            """The state with state = base + part * step * slope(state)."""
            state = guess
            start = section.heavy @ base
            for _ in range(60):
                heat = section.load @ (section.heat(section.wires(state), factor) / section.area)
                h_now, k_now = section.laws(state)
                force = heat + (h - h_now) * (section.skin @ state)
                if section.mix.sleeve:
                    force += (k - k_now) * (section.gap @ state)
                new = solve(start + part * step * force)
                moved = abs(new - state).max()
                state = new
                if moved < within * (1 + abs(state).max()):
                    break
            return (state - base) / (part * step), state

        slope = np.zeros_like(rise)
        for _ in range(steps):
            first, _ = slope_and_state(rise, rise + part * step * slope)
            base = rise + (1 - part) * step * first
            slope, rise = slope_and_state(base, base + part * step * first)
            seconds += step
            track.append((seconds, section.wires(rise).max()))
            if track[-1][1] > TOO_HOT_C - AMBIENT_C:
                # A parabola through the last three steps.
                t, r = np.array(track[-3:]).T
                curve = np.polyfit(r, t, 2)
                return Transient(factor, hottest, float(np.polyval(curve, TOO_HOT_C - AMBIENT_C)))
        seconds = until
        hottest.append(track[-1][1])
    return Transient(factor, hottest, None)


# ---------------------------------------------------------------------------------------------
# Making bundle.toml.

# Halvings of the coarsest mesh: the last two are compared. Transients run on the mesh halved once, and
# are compared with the coarsest mesh and steps four times as long.
HALVINGS = 2
STEPS, FEW_STEPS, CHECK_STEPS = 32, 8, 4
# Enough for a check: the shape of triangles, and how far passes settle, a part.
CHECK_COARSE, CHECK_SETTLED = 2.5, 1e-5
# Tape drawn close takes the most points: above so many wires a check leaves it out.
CHECK_CLOSE = 20


def settled(mix, halvings, say):
    """The steady state on the finest mesh, with its checks; and the sections of all meshes."""
    curves = curves_of(mix)
    points, corners = triangulated(curves)
    laws, hottest, sections = None, [], []
    for times in range(halvings + 1):
        sections.append(Section(mix, ground(points, corners, curves, times)))
        found, laws = steady(sections[-1], laws)
        hottest.append(found.wires.max())
        say(f"  {sections[-1].points:>7} points: hottest {hottest[-1]:.4f} K over ambient")
    found.points = sections[-1].points
    found.moves = abs(hottest[-1] / hottest[-2] - 1)
    found.lost = max(abs(found.out / found.made - 1), abs(found.crossing / found.made - 1))
    say(f"  mesh moves it {found.moves:.1e}, heat out is off by {found.lost:.1e}")
    assert found.moves < MESH_WITHIN and found.lost < HEAT_WITHIN
    return found, sections


def solved(mix, say):
    """All that is told of a mix: round, close, loose, and from ambient on."""
    found, sections = settled(mix, HALVINGS, say)
    say("  tape drawn close:")
    close, _ = settled(replace(mix, close=True), 1, say)
    loose, _ = steady(Section(mix, ground(*spread_mesh(mix), 0)))
    say(f"  less tight: hottest {loose.wires.max():.3f} K over ambient")
    transients = []
    for factor in mix.factors:
        rough, smooth = transient(sections[0], factor, FEW_STEPS), transient(sections[1], factor, STEPS)
        smooth.moves = max(abs(a / b - 1) for a, b in zip(rough.hottest, smooth.hottest))
        transients.append(smooth)
        say(f"  amps times {factor}: {[round(float(r), 2) for r in smooth.hottest]}, {smooth.too_hot_s}")
        assert smooth.moves < MESH_WITHIN, smooth.moves
    return found, close, loose, transients


def spread_mesh(mix):
    """The mesh of the mix with its wires less tight, and its curves."""
    curves = curves_of(mix, (1 + LOOSE) / (1 + APART))
    return *triangulated(curves), curves


def celsius(rises):
    """Rises as a list of celsius; more figures where little has risen."""
    return [round(float(AMBIENT_C + r), 3 if r > 1 else 5) for r in rises]


def temperatures(f):
    """The lines of a steady state."""
    return [
        f"hottest_celsius = {AMBIENT_C + f.wires.max():.3f}",
        f"outside_celsius = {AMBIENT_C + f.outside:.3f}",
        f"skin_celsius = {AMBIENT_C + f.skin:.3f}",
        f"watts_per_m = {f.made:.4f}",
        f"mesh_points = {f.points}",
        f"mesh_moves_hottest_rise = {f.moves:.1e}",
        f"heat_out_differs = {f.lost:.1e}",
    ]


def written(mix, found, close, loose, transients):
    """A mix as TOML."""
    lines = ["[[mix]]", f'name = "{mix.name}"', f"ambient_c = {AMBIENT_C}", f"emissivity = {EMISSIVITY}",
             f"enclosing_d_m = {mix.enclosing_d:.7f}"]
    if mix.sleeve:
        lines.append(f'sleeve = {{ name = "{mix.sleeve["name"]}", bore_m = {mix.sleeve["bore"]}, '
                     f'gap_m = {(mix.sleeve["bore"] - mix.enclosing_d) / 2:.7f}, wall_m = {mix.sleeve["wall"]}, '
                     f"k = {SLEEVE_K}, emissivity = {EMISSIVITY}, heat_j_m3k = {SLEEVE_J} }}")
    lines += [*temperatures(found), f"hottest_celsius_if_loose = {AMBIENT_C + loose.wires.max():.2f}", "wires = ["]
    for w, rise in zip(mix.wires, found.wires):
        k, j = PLASTIC[w.insulation]
        lines.append(
            f'  {{ size = "{w.size}", insulation = "{w.insulation}", conductor_d_m = {w.conductor_d:.4f}, '
            f"outside_d_m = {w.outside_d:.4f}, k_insulation = {k}, heat_j_m3k = {j}, "
            f"r20_ohm_per_m = {w.r20:.5f}, amps = {w.amps}, x_m = {w.x:.7f}, y_m = {w.y:.7f}, "
            f"celsius = {AMBIENT_C + rise:.3f} }},")
    lines += ["]", "", "[mix.close]", f"around_d_m = {replace(mix, close=True).outside_d:.7f}",
              *temperatures(close), f"celsius = {celsius(close.wires)}"]
    for t in transients:
        lines += ["", "[[mix.transient]]", f"times_amps = {t.factor}",
                  f"hottest_amps = {t.factor * mix.wires[int(np.argmax(found.wires))].amps}",
                  f"seconds = {TIMES[: len(t.hottest)]}",
                  f"hottest_celsius = {celsius(t.hottest)}"]
        if t.too_hot_s is not None:
            lines.append(f"passes_250_c_after_s = {t.too_hot_s:.3f}")
        lines.append(f"mesh_and_steps_move_rise = {t.moves:.1e}")
    return "\n".join(lines) + "\n"


HEAD = f"""# Cross-sections of wire bundles by two-dimensional finite elements: an outside reference for physics::bundle.
# Made by tests/published/fem/bundle.py on {DATE}; do not edit, run it again. Basis: derived.
# scikit-fem {skfem.__version__}, scipy {scipy.__version__}, numpy {np.__version__}. Curved triangles of the second order: Ruppert's
# refinement of a Delaunay mesh, then every side halved {HALVINGS} times (once for transients and for tape drawn close).
#
# A wire is a full circle of copper (385 W/m K, {COPPER_J:.0f} J/m3 K: more copper than its strands have) in a ring of
# insulation. Between wires lies still air that conducts as at ambient ({AIR_J} J/m3 K); nothing radiates there.
# Around all is the bundle's outside: a circle that all but touches the outermost wires (enclosing_d_m), of no
# thickness. [mix.close] is the other extreme, tape drawn straight from wire to wire; around_d_m is the diameter of
# the circle as long. Heat sheds by Churchill and Chu and by radiation, at the skin's own mean temperature. A sleeve
# lies even all round; its gap conducts by air at the mean of its walls, and radiates by their mean temperatures.
# Heat of a wire is I2 r20 (1 + 0.00393 (T - 20)), T the mean of its copper; celsius of a wire is that mean.
# Wires are {APART * 100:g} % of a diameter apart where they would touch; hottest_celsius_if_loose is for {LOOSE * 100:g} %.
#
# Transients: from ambient, from 0 s on every amps times times_amps, round outside; the wire that is hottest by then;
# until 1000 s, or until copper passes 250 C. mesh_moves_hottest_rise: between the last two meshes, a part of the
# rise. heat_out_differs: from heat made, the worse of the law of the outside and the slope of temperature there.
# mesh_and_steps_move_rise: from the coarsest mesh with steps four times as long, the worst of all times.
"""


def make():
    begun = perf_counter()
    text = HEAD
    for mix in mixes():
        print(f"{mix.name}: {len(mix.wires)} wires in {mix.enclosing_d * 1e3:.2f} mm", flush=True)
        text += "\n" + written(mix, *solved(mix, lambda line: print(line, flush=True)))
        print(f"  {perf_counter() - begun:.0f} s", flush=True)
    TABLE.write_text(text)


# ---------------------------------------------------------------------------------------------
# Checking it.


def read(row):
    """A mix as it stands in bundle.toml."""
    wires = [Wire(w["size"], w["insulation"], w["amps"], w["x_m"], w["y_m"]) for w in row["wires"]]
    for w, told in zip(wires, row["wires"]):
        same = (w.conductor_d, w.outside_d, w.r20, *PLASTIC[w.insulation])
        keys = ("conductor_d_m", "outside_d_m", "r20_ohm_per_m", "k_insulation", "heat_j_m3k")
        assert np.allclose(same, [told[key] for key in keys], rtol=1e-9), f"{row['name']}: {w.size} is another wire"
    sleeve = row.get("sleeve")
    if sleeve:
        sleeve = {"name": sleeve["name"], "bore": sleeve["bore_m"], "wall": sleeve["wall_m"]}
    return Mix(row["name"], wires, row["enclosing_d_m"], sleeve,
               factors=tuple(t["times_amps"] for t in row.get("transient", [])))


def overlapping(mix):
    """Whether wires overlap or leave the bundle."""
    p = np.array([(w.x, w.y) for w in mix.wires])
    r = np.array([w.outside_d / 2 for w in mix.wires])
    one, other = np.triu_indices(len(r), 1)
    return (np.linalg.norm(p[one] - p[other], axis=1) <= r[one] + r[other]).any() or (
        np.linalg.norm(p, axis=1) + r >= mix.enclosing_d / 2).any()


def closed_form():
    """One wire in the middle of a sleeve is a row of shells. Gives how far the mesh is off."""
    wire = Wire("2.5 mm²", "PVC", 40.0)
    mix = Mix("one wire", [wire], 9.0e-3, {"bore": 12.0e-3, "wall": 1.0e-3})
    curves = curves_of(mix)
    section = Section(mix, ground(*triangulated(curves), curves, 1))
    found, laws = steady(section)
    across = [(wire.conductor_d, wire.outside_d, PLASTIC["PVC"][0]), (wire.outside_d, 9.0e-3, air(AMBIENT_C)[0]),
              (9.0e-3, 12.0e-3, laws[1]), (12.0e-3, 14.0e-3, SLEEVE_K)]
    inside = sum(log(b / a) / (2 * pi * k) for a, b, k in across)
    # The mean of a circle that makes heat evenly is q / 8 pi k above its edge.
    per_watt = inside + 1 / (pi * 14.0e-3 * laws[0]) + 1 / (8 * pi * COPPER_K)
    rise = wire.cold * (1 + ALPHA * (AMBIENT_C - 20)) * per_watt / (1 - ALPHA * wire.cold * per_watt)
    return abs(found.wires[0] / rise - 1)


def check():
    """Whether bundle.toml is what this script finds, on a coarse mesh."""
    begun = perf_counter()
    off = closed_form()
    print(f"a wire in the middle of its sleeve: off its closed form by {off:.1e}")
    worst = off / 1e-4
    for row in tomllib.loads(TABLE.read_text())["mix"]:
        mix = read(row)
        assert not overlapping(mix), f"{mix.name}: wires overlap"
        off, lost, laws = 0.0, 0.0, None
        shapes = [(row, mix, [w["celsius"] for w in row["wires"]])]
        if len(mix.wires) <= CHECK_CLOSE:
            shapes.insert(0, (row["close"], replace(mix, close=True), row["close"]["celsius"]))
        # The round one last: its section is taken for the transients.
        for told, shape, each in shapes:
            curves = curves_of(shape)
            section = Section(shape, ground(*triangulated(curves, CHECK_COARSE), curves, 0))
            found, laws = steady(section, laws, CHECK_SETTLED)
            lost = max(lost, abs(found.out / found.made - 1))
            pairs = [*zip(each, found.wires), (told["hottest_celsius"], found.wires.max()),
                     (told["outside_celsius"], found.outside), (told["skin_celsius"], found.skin)]
            off = max([off, *(abs(rise / (celsius - AMBIENT_C) - 1) for celsius, rise in pairs)])
        for told in row.get("transient", []):
            ours = transient(section, told["times_amps"], CHECK_STEPS, CHECK_SETTLED)
            if len(ours.hottest) != len(told["hottest_celsius"]):
                off = 1.0
            pairs = [(c - AMBIENT_C, r) for c, r in zip(told["hottest_celsius"], ours.hottest)]
            if ours.too_hot_s is not None:
                pairs.append((told["passes_250_c_after_s"], ours.too_hot_s))
            off = max([off, *(abs(b / a - 1) for a, b in pairs)])
        print(f"{mix.name}: {section.points} points, off by {off:.2%}, heat out off by {lost:.1e}, "
              f"{perf_counter() - begun:.0f} s", flush=True)
        worst = max(worst, off / CHECK_WITHIN, lost / HEAT_WITHIN)
    if worst > 1:
        sys.exit("bundle.toml is not what this script finds")


if __name__ == "__main__":
    if sys.argv[1:] == ["--check"]:
        check()
    elif not sys.argv[1:]:
        make()
    else:
        sys.exit(__doc__)
