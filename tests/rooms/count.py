#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""count.py PROGRAM FIRST COUNT [odd] [heaters LOW-HIGH] [-v] [--floor N]: how many rooms by seed have a plant without a failing
check, a plant with one, or none, and why. With a floor: exit status 1 where fewer than N of COUNT are good, a room takes over a
minute, or a space is not free that must be (space.py)."""
import collections
import json
import pathlib
import resource
import subprocess
import sys
import tempfile
import time

import ordinary
import space


def designed(program, path):
    """The result document of a survey's design; or nothing, and why it was refused."""
    run = subprocess.run([program, 'design', path, '--json'], capture_output=True, text=True, timeout=60)
    return (json.loads(run.stdout), '') if run.returncode in (0, 2) else (None, run.stderr.strip())


def judged(program, path):
    """'good', 'failing', 'none', 'refused' or 'late', with what is said about it; 'wrong' where a plant without a failing check
    does not leave the spaces it must by a reckoning apart."""
    try:
        result, why = designed(program, path)
    except subprocess.TimeoutExpired:
        return 'late', ['more than a minute']
    if result is None:
        return 'refused', [why]
    failing = [c for c in result['checks'] if c['status'] == 'fail']
    if result.get('layout') is None:
        return 'none', [c['says'] for c in failing]
    # heaters and banks are numbered: the kind of check is what counts
    kinds = sorted({'.'.join(w for w in c['id'].split('.') if not any(ch.isdigit() for ch in w)) for c in failing})
    if failing:
        return 'failing', kinds
    taken, _ = space.found(result, pathlib.Path(path).read_text())
    return ('wrong', taken) if taken else ('good', [result['layout']['id']])


def main():
    arguments = sys.argv[1:]
    floor = None
    if '--floor' in arguments:
        at = arguments.index('--floor')
        floor = int(arguments[at + 1])
        del arguments[at:at + 2]
    program, first, count = arguments[0], int(arguments[1]), int(arguments[2])
    odd, verbose = 'odd' in arguments[3:], '-v' in arguments[3:]
    heaters = ordinary.asked_heaters(arguments)

    tally, causes, slowest, began = collections.Counter(), collections.Counter(), 0.0, time.time()
    with tempfile.TemporaryDirectory() as folder:
        for seed in range(first, first + count):
            path = pathlib.Path(folder) / f'{seed}.toml'
            path.write_text(ordinary.job(seed, odd, heaters=heaters)[2])
            started = time.time()
            outcome, why = judged(program, path)
            tally[outcome] += 1
            slowest = max(slowest, time.time() - started)
            if outcome != 'good':
                causes.update(w[:100] if outcome != 'failing' else w for w in why)
            if verbose or outcome == 'late':
                print(seed, outcome, *why, sep='  ', flush=True)
    print(f'{count} rooms from seed {first}:', ', '.join(f'{n} {what}' for what, n in tally.most_common()),
          f'in {time.time() - began:.0f} s; the slowest {slowest:.1f} s, the largest '
          f'{resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024:.0f} MB')
    for what, n in causes.most_common(25):
        print(f'{n:4}  {what}')
    if floor is not None:
        print(f'floor: {floor} good, found {tally["good"]}')
        sys.exit(1 if tally['good'] < floor or tally['late'] or tally['wrong'] else 0)


if __name__ == '__main__':
    main()
