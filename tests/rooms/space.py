# SPDX-License-Identifier: MIT
"""The spaces a plant must leave, worked out anew from its result document and its survey, by nothing of the program's.

- International Fuel Gas Code 2018, 306.1: a level working space 30 in by 30 in on the control side of every heater. Taken from
  the floor to 78 in, across the heater and on to 30 in to either side as it finds room.
- National Electrical Code 2017, 110.26(A): before the panel 36 in deep, 30 in wide wherever it covers the panel, 6-1/2 ft high.
- The heater's own clearances, from the catalogue (the demo's, invented): beside, above, in front.
All measures are metres; boxes are (low, high). Solids are taken by the boxes about them.
"""
import pathlib
import re
import tomllib

INCH = 0.0254
TALL, DEEP, WIDE, PANEL_DEEP = 78 * INCH, 30 * INCH, 30 * INCH, 36 * INCH
NARROWEST_PANEL = 14.5 * INCH
HAIR = 0.002  # coordinates are written to a tenth of a millimetre, and sizes of pipe are rounded
ROOT = pathlib.Path(__file__).resolve().parents[2]


def inches(text):
    """Metres of 3 ft 1.5 in, 10 in or 2-1/2 in."""
    total = 0.0
    for number, unit in re.findall(r'([\d./-]+) (ft|in)\b', text):
        whole, _, part = number.rpartition('-')
        value = float(whole or 0)
        top, _, under = part.partition('/')
        total += (value + float(top) / float(under or 1)) * (12 if unit == 'ft' else 1)
    return total * INCH


def boxes_of(piece):
    for solid in piece['solids']:
        if solid['kind'] == 'box':
            yield solid['min'], solid['max']
        else:
            a, b, r = solid['a'], solid['b'], solid['radius']
            long = sum((p - q) ** 2 for p, q in zip(a, b)) ** 0.5 or 1
            off = [r * max(0.0, 1 - ((p - q) / long) ** 2) ** 0.5 for p, q in zip(a, b)]
            yield [min(p, q) - o for p, q, o in zip(a, b, off)], [max(p, q) + o for p, q, o in zip(a, b, off)]


def overlap(a, b):
    return all(low < high - HAIR for low, high in ((max(a[0][k], b[0][k]), min(a[1][k], b[1][k])) for k in range(3)))


def inside(plan, x, y):
    """Whether a point is in the room, by the number of walls to its right."""
    odd = False
    for (x0, y0), (x1, y1) in zip(plan, plan[1:] + plan[:1]):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
            odd = not odd
    return odd


def in_room(plan, box):
    """A box whose corners, sides and middle lie in the room."""
    (x0, y0, _), (x1, y1, _) = box
    steps = [i / 8 for i in range(9)]
    return all(inside(plan, x0 + HAIR + (x1 - x0 - 2 * HAIR) * s, y0 + HAIR + (y1 - y0 - 2 * HAIR) * t) for s in steps for t in steps)


def before(face, facing, low, high, deep, tall):
    """The box before a face: `face` metres along its axis, `facing` +1 or -1 with that axis, low to high across it."""
    axis, sign = facing
    box = [[0, 0, 0], [0, 0, tall]]
    box[0][axis], box[1][axis] = sorted((face, face + sign * deep))
    box[0][1 - axis], box[1][1 - axis] = low, high
    return box


def free(box, plan, taken):
    return in_room(plan, box) and not any(overlap(box, one) for one in taken)


def somewhere_free(face, facing, low, high, wide, deep, plan, taken):
    """Whether a space `wide` that covers low to high is free somewhere along the face."""
    span = max(wide, high - low)
    slide = span - (high - low)
    return any(free(before(face, facing, low - slide * k / 24, low - slide * k / 24 + span, deep, TALL), plan, taken) for k in range(25))


def found(result, survey_text):
    """Sentences on what is not left free; and how many spaces were looked at."""
    survey = tomllib.loads(survey_text)
    plan = [tuple(map(inches, corner)) for corner in survey['room']['plan']]
    ceiling = inches(survey['room']['ceiling'])
    rows = {row['key']: row for row in tomllib.loads((ROOT / 'data/heaters.toml').read_text())['heater']}
    obstacles = [(list(map(inches, one['from'])), list(map(inches, one['to']))) for one in survey['room'].get('obstacle', [])]
    heaters = [piece for piece in result['pieces'] if piece['part'] == 'heater']
    others = [(piece['id'], box) for piece in result['pieces'] if piece['part'] != 'heater' for box in boxes_of(piece)]
    bodies = {heater['id']: next(boxes_of(heater)) for heater in heaters}
    says, looked = [], 0
    for heater in heaters:
        low, high = bodies[heater['id']]
        mount = next(port['facing'] for port in heater['ports'] if port['name'] == 'mount')
        axis = 0 if abs(mount[0]) > 0.5 else 1
        sign = -1 if mount[axis] > 0 else 1
        face = high[axis] if sign > 0 else low[axis]
        across = 1 - axis
        row = rows[heater['item']]
        taken = obstacles + [box for _, box in others] + [body for name, body in bodies.items() if name != heater['id']]
        looked += 1
        if not somewhere_free(face, (axis, sign), low[across], high[across], WIDE, DEEP, plan, taken):
            says.append(f'{heater["id"]}: no 30 in by 30 in before it is free')
        if not free(before(face, (axis, sign), low[across], high[across], inches(row['gap-front']), TALL), plan, taken):
            says.append(f'{heater["id"]}: its own clearance in front is not free')
        if high[2] + inches(row['gap-top']) > ceiling + HAIR:
            says.append(f'{heater["id"]}: {(ceiling - high[2]) / INCH:.2f} in to the ceiling')
        beside = inches(row['gap-side']) - HAIR
        for side in (-1, 1):
            strip = [list(low), list(high)]
            strip[0][across], strip[1][across] = sorted(((low if side < 0 else high)[across], (low if side < 0 else high)[across] + side * beside))
            near = [name for name, body in bodies.items() if name != heater['id'] and overlap(strip, body)]
            if near or not in_room(plan, strip) or any(overlap(strip, one) for one in obstacles):
                says.append(f'{heater["id"]}: less than {row["gap-side"]} beside it')
    panel = next((piece for piece in result['pieces'] if piece['id'] == 'site.panel'), None)
    if panel:
        port = panel['ports'][0]
        axis = 0 if abs(port['facing'][0]) > 0.5 else 1
        sign = 1 if port['facing'][axis] > 0 else -1
        middle = port['at'][1 - axis]
        low, high = middle - NARROWEST_PANEL / 2, middle + NARROWEST_PANEL / 2
        wires = {piece['id'] for piece in result['pieces'] if piece['part'] in ('cable', 'panel-feed')}  # which end at it
        own = [box for name, box in others if name not in wires] + list(bodies.values())
        looked += 1
        bare = somewhere_free(port['at'][axis], (axis, sign), low, high, WIDE, PANEL_DEEP, plan, obstacles)
        if bare and not somewhere_free(port['at'][axis], (axis, sign), low, high, WIDE, PANEL_DEEP, plan, own + obstacles):
            says.append('the panel: no 30 in by 36 in before it is free')
    return says, looked
