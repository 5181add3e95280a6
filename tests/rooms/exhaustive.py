#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""exhaustive.py PROGRAM FIRST COUNT [--step INCHES]: whether trying every place on every wall finds what the search missed.

Small ordinary rooms by seed, of up to four heaters. Each is designed freely, and then once for every wall and every place along
it. A place where a plant without a failing check stands though the search found none, or at more than a twentieth less, is told.
Exit status 1 where there is one.
"""
import argparse
import pathlib
import sys
import tempfile
import tomllib

import ordinary
from count import designed
from space import INCH, inches


def plant(program, path):
    """Place and total price of a plant without a failing check, or nothing."""
    result, _ = designed(program, path)
    if result is None or result.get('layout') is None or any(check['status'] == 'fail' for check in result['checks']):
        return None
    return result['layout']['id'], result['estimate']['total']['value']


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument('program')
    parser.add_argument('first', type=int)
    parser.add_argument('count', type=int)
    parser.add_argument('--step', type=float, default=6)
    options = parser.parse_args()
    missed, rooms, places, seed = 0, 0, 0, options.first
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / 'job.toml'
        while rooms < options.count:
            wanted, _, text = ordinary.job(seed)
            seed += 1
            if wanted > 3:
                continue
            rooms += 1
            path.write_text(text)
            searched = plant(options.program, path)
            best = None
            corners = [tuple(map(inches, corner)) for corner in tomllib.loads(text)['room']['plan']]
            for wall, (a, b) in enumerate(zip(corners, corners[1:] + corners[:1]), 1):
                length = (abs(b[0] - a[0]) + abs(b[1] - a[1])) / INCH
                at = 0.0
                while at < length - 12:
                    path.write_text(text.replace('[preferences]', f'[preferences]\nplace = "wall-{wall}-at-{at:g}"'))
                    found = plant(options.program, path)
                    places += 1
                    if found and (best is None or found[1] < best[1]):
                        best = found
                    at += options.step
            worse = best and (searched is None or best[1] < 0.95 * searched[1])
            missed += bool(worse)
            print(f'{seed - 1}: the search {searched or "found none"}, every place {best or "none"}{"  MISSED" if worse else ""}', flush=True)
    print(f'{rooms} rooms, {places} places, {missed} missed')
    return 1 if missed or not rooms else 0


if __name__ == '__main__':
    sys.exit(main())
