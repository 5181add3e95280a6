#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Many people edit, each a job of its own, for some minutes: how long until an edit is stored, and whether memory grows.

    bench/soak.py [--minutes 5] [--editors 50] [--every 5] [--survey examples/wash-house.toml]

Everybody follows the job's events and edits once in --every seconds. Growth is that of the resident memory from the end of
the first third to the end.
"""
import argparse, os, re, time

from edits import Editor
from server import ROOT, serving


def resident(pid):
    return int(re.search(r"VmRSS:\s+(\d+)", open(f"/proc/{pid}/status").read()).group(1)) / 1000


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--minutes", type=float, default=5)
    parser.add_argument("--editors", type=int, default=50)
    parser.add_argument("--every", type=float, default=5)
    parser.add_argument("--survey", default=f"{ROOT}/examples/wash-house.toml")
    parser.add_argument("--program", default=f"{ROOT}/build/release/bankwright")
    options = parser.parse_args()
    options.edits = max(int(options.minutes * 60 / options.every), 3)
    memory, files = [], []
    with serving(options.program) as (server, port):
        editors = [Editor(port, n, options) for n in range(options.editors)]
        for editor in editors:
            editor.start()
        while not all(editor.done.is_set() for editor in editors):
            memory.append(resident(server.pid))
            files.append(len(os.listdir(f"/proc/{server.pid}/fd")))
            time.sleep(1)
        for editor in editors:
            editor.join()
    stored = sorted(t for editor in editors for t in editor.stored)
    views = sorted((editor.seen[r] - at) * 1000 for editor in editors for r, at in editor.sent.items() if r in editor.seen)
    at = lambda times, share: times[min(int(share * len(times)), len(times) - 1)]
    third = len(memory) // 3
    print(f"{options.editors} editors, {len(memory)} s, {len(stored)} edits; ms stored: p50 {at(stored, 0.5):.1f}, p95 {at(stored, 0.95):.1f}, most {stored[-1]:.1f}; "
          f"view: p50 {at(views, 0.5):.1f}, p95 {at(views, 0.95):.1f}, most {views[-1]:.1f}; "
          f"memory MB: {memory[0]:.0f} at first, {memory[third]:.0f} after a third, {memory[-1]:.0f} at the end, growth {memory[-1] - memory[third]:+.0f}; "
          f"files open {files[0]} to {files[-1]}, most {max(files)}")


main()
