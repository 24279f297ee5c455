"""Writes tests/published/data/reference-core.json: answers of numpy and scipy that the scoring core is held against.

Opt-in, since it needs Debian's python3-scipy; the file it writes is committed and checked by tests/reference/core.test.ts:
    python3 scripts/reference-core.py > tests/published/data/reference-core.json
"""

import json

import numpy as np
import scipy
from scipy import optimize, stats

rng = np.random.default_rng(20)


def floats(values):
    return [float(value) for value in values]


def t_tables():
    cases = []
    for df in (1, 1.7, 2, 4.5, 9.6, 30, 247.3, 5000):
        for x in (-8.5, -2.1, -0.3, 0, 0.04, 1.3, 6.2):
            cases.append({"df": df, "x": x, "cdf": float(stats.t.cdf(x, df))})
    reaches = [{"df": df, "reach": float(stats.t.ppf(0.975, df))} for df in (1, 1.7, 2, 4.5, 9.6, 30, 247.3, 5000)]
    return {"cdf": cases, "reach": reaches}


def welch():
    cases = []
    for _ in range(12):
        first = np.round(rng.normal(rng.normal(), 3, rng.integers(2, 40)), 2)
        second = np.round(rng.normal(0, 7, rng.integers(2, 40)), 2)
        answer = stats.ttest_ind(first, second, equal_var=False)
        interval = answer.confidence_interval(0.95)
        cases.append(
            {
                "first": floats(first),
                "second": floats(second),
                "t": float(answer.statistic),
                "df": float(answer.df),
                "p": float(answer.pvalue),
                "low": float(interval.low),
                "high": float(interval.high),
            }
        )
    return cases


def marks(size):
    return np.clip(np.round(2 * rng.normal(3, 0.9, size)) / 2, 1, 5)


def cliff():
    cases = []
    for _ in range(10):
        first, second = marks(rng.integers(2, 30)), marks(rng.integers(2, 30))
        u = stats.mannwhitneyu(first, second).statistic
        cases.append({"first": floats(first), "second": floats(second), "superiority": float(u / (len(first) * len(second)))})
    return cases


def intraclass():
    cases = []
    for _ in range(8):
        n, k = rng.integers(3, 25), rng.integers(2, 6)
        table = marks((n, k)) + rng.normal(0, 0.4, (n, 1)).round(1)
        grand, rows, columns = table.mean(), table.mean(axis=1), table.mean(axis=0)
        between = k * ((rows - grand) ** 2).sum() / (n - 1)
        within = ((table - rows[:, None]) ** 2).sum() / (n * (k - 1))
        error = ((table - rows[:, None] - columns + grand) ** 2).sum() / ((n - 1) * (k - 1))
        f = between / error
        upper = f * stats.f.ppf(0.975, (n - 1) * (k - 1), n - 1)
        lower = f / stats.f.ppf(0.975, n - 1, (n - 1) * (k - 1))
        cases.append(
            {
                "table": [floats(row) for row in table],
                "oneWay": float((between - within) / (between + (k - 1) * within)),
                "consistency": float((between - error) / (between + (k - 1) * error)),
                "low": float((lower - 1) / (lower + k - 1)),
                "high": float((upper - 1) / (upper + k - 1)),
                "p": float(stats.f.sf(f, n - 1, (n - 1) * (k - 1))),
            }
        )
    return cases


def assignment():
    cases = []
    for _ in range(6):
        rows, columns = rng.integers(3, 40), rng.integers(3, 40)
        first = rng.integers(1, 99, rows)
        second = rng.integers(1, 99, columns)
        cost = 0.05 * np.abs(first[:, None] - second[None, :])
        allowed = np.where(cost <= 0.5 + 1e-9, cost, 1000.0)
        chosen = optimize.linear_sum_assignment(allowed)
        taken = allowed[chosen]
        kept = taken[taken < 1000]
        cases.append(
            {"first": [int(one) for one in first], "second": [int(one) for one in second], "pairs": len(kept), "cost": float(kept.sum())}
        )
    return cases


def posterior():
    """The posterior of every runner of a drawn class, each formula written again from docs/method.md section 5."""
    rows = []
    for runner in range(9):
        centre = rng.normal(3, 0.4)
        for game in range(rng.integers(1, 6)):
            day = centre + rng.normal(0, 0.3)
            for carry in range(rng.integers(2, 9)):
                clearness = rng.choice(3, p=[0.6, 0.3, 0.1])
                value = float(np.clip(np.round(2 * rng.normal(day, 0.7)) / 2, 1, 5))
                rows.append([runner, game, carry, int(clearness), value])
    data = np.array(rows)
    weight = np.array([1, 0.6, 0.3])[data[:, 3].astype(int)]
    value = data[:, 4]
    key = data[:, 0] * 100 + data[:, 1]
    games, place = np.unique(key, return_inverse=True)
    owner = (games // 100).astype(int)
    told = np.bincount(place, weight)
    mean = np.bincount(place, weight * value) / told
    cells = np.bincount(place)
    squares = np.bincount(place, weight * (value - mean[place]) ** 2)
    several = cells > 1
    within = squares[several].sum() / (cells[several] - 1).sum()
    q = lever = degrees = 0.0
    for runner in range(9):
        own = owner == runner
        if own.sum() < 2:
            continue
        w = told[own]
        centre = (w * mean[own]).sum() / w.sum()
        q += (w * (mean[own] - centre) ** 2).sum()
        lever += w.sum() - (w**2).sum() / w.sum()
        degrees += own.sum() - 1
    between = max(0.0, (q - within * degrees) / lever)
    u = 1 / (within / told + between)
    estimate = np.bincount(owner, u * mean) / np.bincount(owner, u)
    variance = 1 / np.bincount(owner, u)
    a = 1 / variance
    fixed = (a * estimate).sum() / a.sum()
    spread = max(0.0, ((a * (estimate - fixed) ** 2).sum() - 8) / (a.sum() - (a**2).sum() / a.sum()))
    typical = 9 / a.sum()
    spread = (typical + spread) * 8 / 6 - typical
    b = 1 / (variance + spread)
    centre = (b * estimate).sum() / b.sum()
    shrink = variance / (variance + spread)
    grade = centre + (1 - shrink) * (estimate - centre)
    sd = np.sqrt(variance * (1 - shrink) + shrink**2 / b.sum() + shrink**2 * (estimate - centre) ** 2 * 2 / 6)
    reach = stats.t.ppf(0.975, degrees)
    return {
        "marks": rows,
        "within": float(within),
        "betweenGames": float(between),
        "betweenRunners": float(spread),
        "grade": floats(grade),
        "sd": floats(sd),
        "low": floats(np.clip(grade - reach * sd, 1, 5)),
        "chance": floats(stats.t.sf((3.4 - grade) / sd, degrees)),
    }


print(
    json.dumps(
        {
            "versions": {"numpy": np.__version__, "scipy": scipy.__version__},
            "t": t_tables(),
            "welch": welch(),
            "cliff": cliff(),
            "intraclass": intraclass(),
            "assignment": assignment(),
            "posterior": posterior(),
        }
    )
)
