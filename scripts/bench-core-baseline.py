"""The games-only bootstrap of the scoring core, written plainly with numpy: the baseline of scripts/bench-core.ts.

Reads a file of float64 rows (runner, game, trait, weight, value) and prints JSON with the seconds of each run:
    python3 scripts/bench-core-baseline.py FILE DRAWS RUNS TRAITS WITHIN BETWEEN_GAMES PRIOR_MEAN PRIOR_VARIANCE
"""

import json
import sys
import time

import numpy as np


def bootstrap(rows, draws, traits, within, between, prior_mean, prior_variance, seed):
    rng = np.random.default_rng(seed)
    weights = np.full(traits, 1 / traits)
    answer = {}
    for runner in np.unique(rows[:, 0]):
        own = rows[rows[:, 0] == runner]
        games, place = np.unique(own[:, 1], return_inverse=True)
        cell = place * traits + own[:, 2].astype(int)
        size = len(games) * traits
        told = np.bincount(cell, own[:, 3], size)
        total = np.bincount(cell, own[:, 3] * own[:, 4], size)
        seen = told > 0
        precision = np.zeros(size)
        precision[seen] = 1 / (within / told[seen] + between)
        pull = np.zeros(size)
        pull[seen] = precision[seen] * total[seen] / told[seen]
        precision = precision.reshape(-1, traits)
        pull = pull.reshape(-1, traits)
        sample = rng.integers(0, len(games), (draws, len(games)))
        told = precision[sample].sum(axis=1)
        pulled = pull[sample].sum(axis=1)
        known = told > 0
        grade = np.full((draws, traits), prior_mean)
        keep = prior_variance / (1 / told[known] + prior_variance)
        grade[known] = prior_mean + keep * (pulled[known] / told[known] - prior_mean)
        overall = grade @ weights
        answer[runner] = (
            grade.std(axis=0, ddof=1),
            np.quantile(grade, [0.025, 0.975], axis=0),
            overall.std(ddof=1),
            np.quantile(overall, [0.025, 0.975]),
        )
    return answer


def main():
    path, draws, runs, traits = sys.argv[1], int(sys.argv[2]), int(sys.argv[3]), int(sys.argv[4])
    within, between, prior_mean, prior_variance = (float(word) for word in sys.argv[5:9])
    rows = np.fromfile(path).reshape(-1, 5)
    seconds = []
    for run in range(runs):
        start = time.perf_counter()
        bootstrap(rows, draws, traits, within, between, prior_mean, prior_variance, run)
        seconds.append(time.perf_counter() - start)
    print(json.dumps({"numpy": np.__version__, "seconds": seconds}))


main()
