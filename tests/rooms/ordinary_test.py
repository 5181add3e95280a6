#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Every door of the rooms by seed stands in its wall."""
import math
import tomllib
import unittest

import ordinary


def metres(text):
    feet, _, inches = text.partition(' ft')
    return (float(feet) * 12 + float((inches or '0 in').removesuffix(' in'))) * 0.0254


def inches(text):
    return float(text.removesuffix(' in')) * 0.0254


class Rooms(unittest.TestCase):
    def test_doors_stand_in_their_walls(self):
        for odd in (False, True):
            for seed in range(8000, 8300):
                room = tomllib.loads(ordinary.job(seed, odd)[2])['room']
                plan = [tuple(map(metres, corner)) for corner in room['plan']]
                for door in room['door']:
                    a, b = plan[door['wall'] - 1], plan[door['wall'] % len(plan)]
                    end = metres(door['offset']) + inches(door['width'])
                    self.assertLess(end, math.dist(a, b) + 1e-6, f'seed {seed}, odd {odd}')


if __name__ == '__main__':
    unittest.main()
