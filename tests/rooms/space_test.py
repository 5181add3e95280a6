# SPDX-License-Identifier: MIT
"""space_test.py PROGRAM: the reckoning of spaces sees what is put into them, and nothing in a plant that leaves them free."""
import copy
import json
import pathlib
import subprocess
import sys
import unittest

import space

PROGRAM = sys.argv.pop(1)
SURVEY = space.ROOT / 'examples/sports-hall.toml'


def thing(low, high):
    return {'id': 'thing', 'part': 'pipe', 'ports': [], 'solids': [{'kind': 'box', 'min': low, 'max': high}]}


class Spaces(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        run = subprocess.run([PROGRAM, 'design', SURVEY, '--json'], capture_output=True, text=True, check=True)
        cls.whole = json.loads(run.stdout)
        cls.text = SURVEY.read_text()

    def said_of(self, piece):
        result = copy.deepcopy(self.whole)
        result['pieces'].append(piece)
        return space.found(result, self.text)[0]

    def heater(self):
        piece = next(p for p in self.whole['pieces'] if p['part'] == 'heater')
        facing = next(port['facing'] for port in piece['ports'] if port['name'] == 'mount')
        return piece, facing, piece['solids'][0]

    def test_nothing_is_said_of_a_plant_that_leaves_them_free(self):
        says, looked = space.found(self.whole, self.text)
        self.assertEqual(says, [])
        self.assertEqual(looked, len([p for p in self.whole['pieces'] if p['part'] == 'heater']) + 1)

    def test_what_hangs_before_a_heater_is_seen(self):
        piece, mount, body = self.heater()
        middle = [(a + b) / 2 for a, b in zip(body['min'], body['max'])]
        for away, height, seen in ((0.5, 1.2, True), (0.5, 2.1, False), (1.4, 1.2, False)):
            at = [m - f * away for m, f in zip(middle, mount)]
            at[2] = height
            says = self.said_of(thing([x - 0.05 for x in at], [x + 0.05 for x in at]))
            self.assertEqual(any(one.startswith(piece['id'] + ':') for one in says), seen, (away, height, says))

    def test_a_neighbor_too_near_is_seen(self):
        piece, mount, body = self.heater()
        across = 1 if abs(mount[0]) > 0.5 else 0
        for gap, seen in ((0.05, True), (0.07, False)):
            other = copy.deepcopy(piece)
            other['id'] = 'heater-99'
            box = other['solids'][0]
            wide = body['max'][across] - body['min'][across]
            for end in ('min', 'max'):
                box[end][across] += wide + gap
            result = copy.deepcopy(self.whole)
            result['pieces'] = [p for p in result['pieces'] if p['part'] != 'heater'] + [piece, other]
            says = space.found(result, self.text)[0]
            self.assertEqual(any('beside' in one for one in says), seen, says)

    def test_what_stands_before_the_panel_is_seen(self):
        panel = next(p for p in self.whole['pieces'] if p['id'] == 'site.panel')['ports'][0]
        at = [a + f * 0.4 for a, f in zip(panel['at'], panel['facing'])]
        self.assertIn('the panel', ' '.join(self.said_of(thing([x - 0.1 for x in at], [x + 0.1 for x in at]))))

    def test_lengths_are_read_as_the_survey_writes_them(self):
        for text, metres in (('3 ft 1.5 in', 0.9525), ('2-1/2 in', 0.0635), ('10 ft', 3.048), ('6 in', 0.1524)):
            self.assertAlmostEqual(space.inches(text), metres)


unittest.main()
