#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""monotone.py PROGRAM FIRST COUNT [odd]: whether more of a good thing is ever answered worse.

Each room by seed is designed as it is and again with a ceiling a foot higher, with two feet more behind a wall that carries
nothing, with more gas pressure and with more water pressure. A good plant may not become a failing one or none, nor a failing
one none. Exit status 1 where one does; every such room is told.
"""
import collections
import copy
import json
import pathlib
import sys
import tempfile
import tomllib

import ordinary
import space
from count import judged

RANK = {'refused': 0, 'late': 0, 'none': 0, 'failing': 1, 'wrong': 1, 'good': 2}


def inches(text):
    return space.inches(text) / space.INCH


def told(length):
    return f'{length:g} in'


def toml(value):
    if isinstance(value, dict):
        return '{' + ', '.join(f'{json.dumps(key)} = {toml(one)}' for key, one in value.items()) + '}'
    if isinstance(value, list):
        return '[' + ', '.join(toml(one) for one in value) + ']'
    return json.dumps(value)


def points(survey):
    return [one['at'] for one in survey['connections'].values()]


def higher(survey):
    ceiling = inches(survey['room']['ceiling'])
    survey['room']['ceiling'] = told(ceiling + 12)
    for at in points(survey):
        if inches(at[2]) > ceiling - 0.5:  # through the roof
            at[2] = told(ceiling + 12)
    return survey


def wider(survey):
    """Two feet more beyond wall 2 or wall 3 of a plain room, where nothing is on it. None where both carry something."""
    plan = [[inches(x) for x in corner] for corner in survey['room']['plan']]
    if len(plan) != 4:
        return None
    doors = {door['wall'] for door in survey['room']['door']}
    for wall, axis, turned in ((2, 0, 3), (3, 1, 4)):
        far = max(corner[axis] for corner in plan)
        outside = any(one['number'] == wall and one['outside'] for one in survey['room']['wall'])
        if outside or wall in doors or any(abs(inches(at[axis]) - far) < 0.5 for at in points(survey)):
            continue
        survey['room']['plan'] = [[told(x + (24 if a == axis and abs(x - far) < 0.5 else 0)) for a, x in enumerate(corner)]
                                  for corner in plan]
        for door in survey['room']['door']:
            if door['wall'] == turned:  # whose first corner moved away
                door['offset'] = told(inches(door['offset']) + 24)
        return survey
    return None


def more_gas(survey):
    more = {'7 inH2O': '9 inH2O', '10 inH2O': '12 inH2O', '11 inH2O': '12 inH2O'}.get(survey['gas']['delivery-pressure'])
    if not more:
        return None
    survey['gas']['delivery-pressure'] = more
    return survey


def more_water(survey):
    psi = float(survey['supply']['pressure'].split()[0])
    if psi > 70:
        return None  # over 80 psi a reducing valve is asked for
    survey['supply']['pressure'] = f'{psi + 8:g} psi'
    return survey


CHANGES = {'a ceiling a foot higher': higher, 'two feet more': wider, 'more gas pressure': more_gas, 'more water pressure': more_water}


def main():
    program, first, count = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])
    tried, worse, better = collections.Counter(), collections.Counter(), collections.Counter()
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / 'job.toml'

        def verdict(survey):
            path.write_text('\n'.join(f'{key} = {toml(value)}' for key, value in survey.items()))
            return judged(program, path)

        for seed in range(first, first + count):
            survey = tomllib.loads(ordinary.job(seed, 'odd' in sys.argv)[2])
            before, _ = verdict(survey)
            for name, change in CHANGES.items():
                changed = change(copy.deepcopy(survey))
                if changed is None:
                    continue
                after, why = verdict(changed)
                tried[name] += 1
                better[name] += RANK[after] > RANK[before]
                if RANK[after] < RANK[before]:
                    worse[name] += 1
                    print(f'{seed}  {name}: {before} becomes {after}', *why, sep='  ', flush=True)
    for name in CHANGES:
        print(f'{name}: {tried[name]} tried, {worse[name]} worse, {better[name]} better')
    return 1 if sum(worse.values()) or not tried.total() else 0


if __name__ == '__main__':
    sys.exit(main())
