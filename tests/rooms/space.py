# SPDX-License-Identifier: MIT
"""The spaces a plant must leave, worked out anew from its result document and its survey, by nothing of the program's.

- International Fuel Gas Code 2018, 306.1 (from memory): a level working space 30 in by 30 in on the control side of every heater. Taken from
  the floor to 78 in, across the heater and on to 30 in to either side as it finds room.
- National Electrical Code 2017, 110.26(A) (from memory): before the panel 36 in deep, 30 in wide wherever it covers the panel, 6-1/2 ft high.
- The heater's own clearances, from the catalogue (the demo's, invented): beside, above, in front.
All measures are metres; boxes are (low, high). Solids are taken by the boxes about them.
"""
import pathlib
import re
import tomllib

INCH = 0.0254
TALL, DEEP, WIDE, PANEL_DEEP = 78 * INCH, 30 * INCH, 30 * INCH, 36 * INCH
NARROWEST_PANEL = 14.5 * INCH
TOLERANCE = 0.002  # coordinates are written to a tenth of a millimetre, and sizes of pipe are rounded
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
    return all(low < high - TOLERANCE for low, high in ((max(a[0][k], b[0][k]), min(a[1][k], b[1][k])) for k in range(3)))


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
    return all(inside(plan, x0 + TOLERANCE + (x1 - x0 - 2 * TOLERANCE) * s, y0 + TOLERANCE + (y1 - y0 - 2 * TOLERANCE) * t) for s in steps for t in steps)


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
    first = high - span
    across = 1 - facing[0]
    # where it may fit it also fits moved on until it touches something
    edges = [corner[across] for corner in plan] + [end[across] for box in taken for end in box]
    starts = [low, first] + [start for edge in edges for start in (edge, edge - span) if first < start < low]
    return any(free(before(face, facing, start, start + span, deep, TALL), plan, taken) for start in starts)


def facing_of(port, outward):
    """Axis a port looks along, and +1 or -1 for the way out of its body: with it, or against it."""
    axis = 0 if abs(port['facing'][0]) > 0.5 else 1
    return axis, (1 if port['facing'][axis] > 0 else -1) * outward


def around_heater(heater, row, bodies, plan, ceiling, obstacles, others):
    low, high = bodies[heater['id']]
    axis, sign = facing_of(next(port for port in heater['ports'] if port['name'] == 'mount'), -1)
    across = 1 - axis
    face = high[axis] if sign > 0 else low[axis]
    neighbors = [body for name, body in bodies.items() if name != heater['id']]
    taken = obstacles + others + neighbors
    if not somewhere_free(face, (axis, sign), low[across], high[across], WIDE, DEEP, plan, taken):
        yield 'no 30 in by 30 in before it is free'
    if not free(before(face, (axis, sign), low[across], high[across], inches(row['gap-front']), TALL), plan, taken):
        yield 'its own clearance in front is not free'
    if high[2] + inches(row['gap-top']) > ceiling + TOLERANCE:
        yield f'{(ceiling - high[2]) / INCH:.2f} in to the ceiling'
    beside = inches(row['gap-side']) - TOLERANCE
    for side in ([low[across] - beside, low[across]], [high[across], high[across] + beside]):
        strip = [list(low), list(high)]
        strip[0][across], strip[1][across] = side
        if not free(strip, plan, obstacles + neighbors):
            yield f'less than {row["gap-side"]} beside it'


def panel_is_shut_in(panel, plan, obstacles, pieces):
    """Whether the plant takes the space before the panel, where the bare room leaves it."""
    port = panel['ports'][0]
    axis, sign = facing_of(port, 1)
    low, high = (port['at'][1 - axis] + side * NARROWEST_PANEL / 2 for side in (-1, 1))

    def open_past(taken):
        return somewhere_free(port['at'][axis], (axis, sign), low, high, WIDE, PANEL_DEEP, plan, taken)

    return open_past(obstacles) and not open_past(obstacles + pieces)


def found(result, survey_text):
    """Sentences on what is not left free; and how many spaces were looked at."""
    survey = tomllib.loads(survey_text)
    plan = [tuple(map(inches, corner)) for corner in survey['room']['plan']]
    ceiling = inches(survey['room']['ceiling'])
    rows = {row['key']: row for row in tomllib.loads((ROOT / 'data/heaters.toml').read_text())['heater']}
    obstacles = [(list(map(inches, one['from'])), list(map(inches, one['to']))) for one in survey['room'].get('obstacle', [])]
    heaters = [piece for piece in result['pieces'] if piece['part'] == 'heater']
    bodies = {heater['id']: next(boxes_of(heater)) for heater in heaters}
    # cables are moved aside on site
    stiff = [piece for piece in result['pieces'] if piece['part'] not in ('heater', 'cable', 'link-cable')]
    others = [(piece['part'], box) for piece in stiff for box in boxes_of(piece)]
    says = [f'{heater["id"]}: {one}' for heater in heaters
            for one in around_heater(heater, rows[heater['item']], bodies, plan, ceiling, obstacles, [box for _, box in others])]
    panels = [piece for piece in result['pieces'] if piece['id'] == 'site.panel']
    pieces = [box for part, box in others if part != 'panel-feed'] + list(bodies.values())
    says += ['the panel: no 30 in by 36 in before it is free' for panel in panels if panel_is_shut_in(panel, plan, obstacles, pieces)]
    return says, len(heaters) + len(panels)
