"""Solves choices among options with HiGHS, through scipy.optimize.milp.

Standard input: a JSON list of problems; of each `things` (costs by option), `rows` (weights by thing and option, and the
most their sum may be), `needs` (thing, option, other thing, its least option), `cuts` (steps up or down, one of which is
made) and `kinds` (a cost, and options any of which asks it). Standard output: the least cost of each, a line each.

The problem is set up here with one variable an option, not with steps, so that it shares nothing with what it checks.
"""

import json
import sys

import numpy
import scipy.sparse
from scipy.optimize import Bounds, LinearConstraint, milp


def least(problem):
    things = problem["things"]
    start = numpy.cumsum([0] + [len(t) for t in things])
    costs = [c for t in things for c in t] + [k["cost"] for k in problem["kinds"]]
    rows, low, high = [], [], []

    def ask(terms, least, most):
        rows.append(terms)
        low.append(least)
        high.append(most)

    at = lambda t, k: int(start[t]) + k
    for t, options in enumerate(things):
        ask({at(t, k): 1.0 for k in range(len(options))}, 1.0, 1.0)
    for row in problem["rows"]:
        terms = {}
        for t, weights in row["weights"]:
            for k, w in enumerate(weights):
                terms[at(t, k)] = terms.get(at(t, k), 0.0) + w
        ask(terms, -numpy.inf, row["most"])
    for t, k, other, least_option in problem["needs"]:
        terms = {at(t, k): 1.0}
        for j in range(least_option, len(things[other])):
            terms[at(other, j)] = terms.get(at(other, j), 0.0) - 1.0
        ask(terms, -numpy.inf, 0.0)
    for cut in problem["cuts"]:
        terms = {}
        for up, t, k in cut:
            made = range(k, len(things[t])) if up else range(k)
            for j in made:
                terms[at(t, j)] = terms.get(at(t, j), 0.0) + 1.0
        ask(terms, 1.0, numpy.inf)
    for i, kind in enumerate(problem["kinds"]):
        for t, k in kind["options"]:
            ask({at(t, k): 1.0, int(start[-1]) + i: -1.0}, -numpy.inf, 0.0)
    matrix = scipy.sparse.lil_array((len(rows), len(costs)))
    for i, terms in enumerate(rows):
        for j, value in terms.items():
            matrix[i, j] = value
    found = milp(
        costs,
        integrality=numpy.ones(len(costs)),
        bounds=Bounds(0, 1),
        constraints=LinearConstraint(matrix.tocsr(), low, high),
        options={"mip_rel_gap": 0.0},
    )
    if not found.success:
        raise SystemExit(f"no answer: {found.message}")
    return found.fun


for problem in json.load(sys.stdin):
    # The solver writes lines of its own.
    print("least", repr(float(least(problem))), flush=True)
