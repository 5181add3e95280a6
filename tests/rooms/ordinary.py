#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Jobs a contractor meets, by seed: rooms of 80 to 400 ft2, ceilings 8 to 12 ft, 2 to 16 heaters, services on one wall, outlets
through a wall or the roof. The same seed gives the same survey. `ordinary.py SEED [odd] [heaters LOW-HIGH]` prints one; `odd` gives
the awkward ones: L and T rooms, beams, duct drops, two doors, crowded walls, 8 ft ceilings, other heaters; `heaters` a job and room
for a number between the two, with mains, gas and loop to match. All of our own invention."""
import random
import sys


def feet(x):
    half_inches = round(x * 24) / 2
    whole = int(half_inches // 12)
    return f'{whole} ft {half_inches - 12 * whole:g} in'


def point(p):
    return '["' + '", "'.join(feet(x) for x in p) + '"]'


def yes(flag):
    return 'true' if flag else 'false'


class Box:
    """A rectangular room, its walls numbered 1 to 4 counter-clockwise from the one along x at y = 0."""

    def __init__(self, w, d, h):
        self.w, self.d, self.h = w, d, h

    def length(self, wall):
        return self.w if wall in (1, 3) else self.d

    def on(self, wall, t, z):
        w, d = self.w, self.d
        return {1: (t, 0, z), 2: (w, t, z), 3: (w - t, d, z), 4: (0, d - t, z)}[wall]


def size_of_job(r, heaters):
    """Heaters aimed at, and the showers and basins that ask for them: about 4.6 gpm each at 75 degF rise."""
    n = r.choice([2, 3, 4, 4, 5, 6, 6, 7, 8, 8, 9, 10, 12, 14, 16])
    n = random.Random(r.random()).randint(*heaters) if heaters else n
    kind = r.choice(['hotel', 'apartment', 'school', 'club', 'gymnasium', 'hospital'])
    gas = r.choice(['natural'] * 4 + ['propane'])
    cold = r.choice([38, 42, 45, 50, 55])
    gpm = n * 4.3 * (0.85 if gas == 'natural' else 0.8)
    mixed = gpm * 0.55 * (125 - cold) / (105 - cold)
    return n, kind, gas, cold, max(2, round(mixed / 2)), max(2, round(gpm * 0.25))


def room_for(r, n):
    area = max(80, n * r.uniform(14, 30))
    aspect = r.uniform(1.0, 2.2)
    d = max(8, round((area / aspect) ** .5 * 2) / 2)
    w = max(9, round(area / d * 2) / 2)
    return Box(w, d, r.choice([8, 8.5, 9, 9, 9.5, 10, 10, 11, 12]))


def door_in(r, box, out):
    wall = r.choice([x for x in (1, 2, 3, 4) if x != out])
    length = box.length(wall)
    width = r.choice([32, 34, 36, 36, 42, 60]) / 12
    offset = round(r.choice([0.5, length - width - 0.5, (length - width) / 2, r.uniform(.5, length - width - .5)]) * 12) / 12
    return wall, offset, width


def services(r, box, door_wall, n):
    """Points on one wall, 10 to 14 in apart, and where they begin."""
    wall = r.choice([x for x in (1, 2, 3, 4) if x != door_wall])
    length = box.length(wall)
    gap = r.choice([10, 12, 14]) / 12
    start = max(.8, r.choice([1.0, length - 1.0 - 4 * gap, (length - 4 * gap) / 2]))
    names = ['gas', 'cold', 'hot', 'recirculation']
    r.shuffle(names)
    heights = {'gas': r.choice([1.5, 3, 6.5]), 'cold': r.choice([1.5, 2.5, 6.0]), 'hot': r.choice([6.0, 6.5, 7.0]),
               'recirculation': r.choice([2.5, 5.5])}
    loop = r.random() < .75
    big, back = '2' if n <= 6 else '3' if n <= 16 else '4', '1' if n <= 16 else '2'
    points = {}
    for i, name in enumerate(names):
        if name == 'recirculation' and not loop:
            continue
        z = min(heights[name], box.h - 1.2)
        points[name] = (box.on(wall, start + i * gap, z), back if name == 'recirculation' else big)
    return wall, start, gap, loop, points


def outlets(r, box, out):
    if r.random() < .35:
        w, d, h = box.w, box.d, box.h
        exhaust = (w * r.uniform(.25, .4), d * r.uniform(.3, .7), h)
        intake = (w * r.uniform(.7, .85), d * r.uniform(.3, .7), h)
        return True, exhaust, intake
    length = box.length(out)
    z = box.h - r.choice([.8, 1.0, 1.2])
    a, b = (1.2, length - 1.2) if r.random() < .5 else (length - 1.2, 1.2)
    return False, box.on(out, a, z), box.on(out, b, z)


def drain_at(r, box, wall, start, gap):
    if r.random() < .5:
        return box.w * r.uniform(.3, .7), box.d * r.uniform(.3, .7), 0
    near = box.on(wall, min(box.length(wall) - 1, start + 4.5 * gap), 0)
    step = {1: (0, .8, 0), 2: (-.8, 0, 0), 3: (0, -.8, 0), 4: (.8, 0, 0)}[wall]
    return tuple(p + q for p, q in zip(near, step))


def panel_at(r, box, service_wall, door):
    door_wall, offset, width = door
    wall = r.choice([x for x in (1, 2, 3, 4) if x != service_wall])
    length = box.length(wall)
    t = r.choice([1.6, length - 1.6])
    if wall == door_wall and offset - 1.6 < t < offset + width + 1.6:
        t = length - 1.6 if t < length / 2 else 1.6
    return box.on(wall, t, 5)


def odd_things(r, box, odd, third_wall_free):
    """Plan, further obstacles, further doors, heater wished: what makes a room awkward. Room is added only behind a third
    wall that carries nothing."""
    w, d, h = box.w, box.d, box.h
    plan = [(0, 0), (w, 0), (w, d), (0, d)]
    things, wish = [], ''
    if not odd:
        return plan, things, wish, None
    shape = r.choice(['box', 'L', 'T', 'box'])
    grown = r.choice([4, 5, 6])
    shape = shape if third_wall_free else 'box'
    if shape == 'L':  # more room beyond wall 3, at its start
        plan = [(0, 0), (w, 0), (w, d), (w * .5, d), (w * .5, d + grown), (0, d + grown)]
    if shape == 'T':
        plan = [(0, 0), (w, 0), (w, d), (w * .7, d), (w * .7, d + grown), (w * .3, d + grown), (w * .3, d), (0, d)]
    if r.random() < .4:
        things.append(('beam', (w * .45, 0, h - 1), (w * .45 + .67, d, h)))
    if r.random() < .3:
        things.append(('duct drop', (w * .2, d * .4, h - 1.25), (w * .2 + 2, d * .4 + 1.5, h)))
    if r.random() < .35:
        things.append(('shelf', (w * .4, d - 1, 0), (w * .4 + 3, d, 6)))
    if r.random() < .3:
        wish = r.choice(['demo-120', 'demo-160'])
    second = r.choice([1, 2, 3, 4]) if r.random() < .3 else None
    return plan, things, wish, second


def asked_heaters(arguments):
    """Least and most, of arguments that hold `heaters LOW-HIGH`; else None."""
    if 'heaters' not in arguments:
        return None
    return tuple(int(x) for x in arguments[arguments.index('heaters') + 1].split('-'))


def on_plan(plan, box, wall, offset):
    """A wall of the box, 1 to 4, and a place along it, as the plan numbers and measures them: what grows behind wall 3 takes
    numbers before the fourth and may lengthen it at its start."""
    return (wall, offset) if wall < 4 else (len(plan), offset + plan[-1][1] - box.d)


def job(seed, odd=False, editions=('2018',), heaters=None):
    """Heaters aimed at, what is special about it, and the survey."""
    r = random.Random(seed * 60013 + 101)
    n, kind, gas, cold, showers, basins = size_of_job(r, heaters)
    box = room_for(r, n)
    if odd and r.random() < .3:
        box.h = 8
    out = r.choice([1, 2, 3])
    build = r.choice(['masonry', 'concrete', 'steel-stud', 'masonry', 'wood-stud'])
    door = door_in(r, box, out)
    service_wall, start, gap, loop, points = services(r, box, door[0], n)
    roof, exhaust, intake = outlets(r, box, out)
    drain = drain_at(r, box, service_wall, start, gap)
    panel = panel_at(r, box, service_wall, door)
    things = []
    if r.random() < .45:
        c = r.choice([(0, 0), (box.w, 0), (box.w, box.d), (0, box.d)])
        s = r.choice([.5, .67, 1.0])
        name = r.choice(['riser', 'column', 'duct drop'])
        low = (min(c[0], box.w - s) if c[0] else 0, min(c[1], box.d - s) if c[1] else 0, 0)
        things.append((name, low, (low[0] + s, low[1] + s, box.h)))
    edition = r.choice(editions)
    psi, hardness = r.choice([50, 60, 65, 75]), r.choice([40, 70, 100, 120])
    closed = r.choice([True, False])
    if gas == 'natural':
        delivery, meter = r.choice(['7 inH2O', '10 inH2O', '2 psi']), n * 250 + 400
    else:
        delivery, meter = r.choice(['11 inH2O', '2 psi']), n * 120 + 200
    delivery = '2 psi' if n > 16 else delivery  # nobody feeds so many at less
    altitude = r.choice([50, 400, 900, 1800, 4200])
    head = r.choice([4, 6, 8])
    rated = [i != out and r.choice([True, False]) for i in (1, 2, 3, 4)]
    swings, corridor = r.choice([True, False]), r.choice([36, 42, 48, 60])
    used = [p for p, _ in points.values()] + [exhaust, intake, panel]
    third_wall_free = door[0] != 3 and out != 3 and not roof and all(p[1] < box.d - 1e-6 for p in used)
    plan, more, wish, second = odd_things(r, box, odd, third_wall_free)
    o = [f'[job]\ntitle = "Job {seed}"\n[building]\nkind = "{kind}"\n[building.fixtures]\nbasin-public = {basins}\nservice-sink = 1',
         f'[[building.block]]\nname = "showers"\ncount = {showers}\nflow = "2 gpm"\ntemperature = "105 degF"\n'
         f'shower-heads = {showers}',
         f'[supply]\npressure = "{psi} psi"\nhardness = "{hardness} mg/L"\ncoldest = "{cold} degF"\nclosed = {yes(closed)}',
         f'[gas]\nkind = "{gas}"\ndelivery-pressure = "{delivery}"\nmeter = "{meter} ft3/h"\nother = []',
         f'[site]\naltitude = "{altitude} ft"\n[water]\ndistribution = "125 degF"\nuse = "105 degF"',
         f'[recirculation]\npresent = {yes(loop)}'
         + (f'\ndrop = "10 degF"\nloss = "{n * 1.5 + 4:g} kBtu/h"\nhead = "{head} ft"' if loop else ''),
         f'[room]\nplan = [{", ".join(point(p) for p in plan)}]\nceiling = "{feet(box.h)}"\nfreezing = false\nterminal-clear = true']
    for i in range(len(plan)):
        outside = i + 1 == out
        fire = rated[3] if i + 1 == len(plan) else i < 3 and rated[i]
        o.append(f'[[room.wall]]\nnumber = {i + 1}\nbuild = "{build}"\ncombustible = {yes(build == "wood-stud")}\n'
                 f'outside = {yes(outside)}\nrated = {yes(fire and not outside)}')
    doors = [door]
    if second and len(plan) == 4 and second not in (door[0], out, service_wall) and box.length(second) > 6:
        doors.append((second, box.length(second) / 2 - 1.5, 3))
    for wall, offset, width in doors:
        wall, offset = on_plan(plan, box, wall, offset)
        o.append(f'[[room.door]]\nwall = {wall}\noffset = "{feet(offset)}"\nwidth = "{width * 12:g} in"\nheight = "6 ft 8 in"\n'
                 f'swings-in = {yes(swings)}')
    o.append(f'[room.way-in]\ncorridor = "{corridor} in"')
    for name, low, high in things + more:
        o.append(f'[[room.obstacle]]\nname = "{name}"\nfrom = {point(low)}\nto = {point(high)}')
    for name, (p, size) in points.items():
        o.append(f'[connections.{name}]\nat = {point(p)}\nsize = "{size}"')
    o.append(f'[connections.drain]\nat = {point(drain)}\nsize = "3"')
    for name, p in (('exhaust', exhaust), ('intake', intake), ('panel', panel)):
        o.append(f'[connections.{name}]\nat = {point(p)}')
    for code in ('IFGC', 'IPC', 'IMC', 'IBC', 'IFC'):
        o.append(f'[[codes]]\ndocument = "{code}"\nedition = "{edition}"')
    o.append('[[codes]]\ndocument = "NEC"\nedition = "2017"\n'
             '[safety]\nemergency-stop-required = true\nco-alarm-required = true')
    o.append('[preferences]\ngas-pipe = "steel-40"\nwater-pipe = "copper-l"' + (f'\nheater = "{wish}"' if wish else ''))
    return n, dict(w=box.w, d=box.d, h=box.h, roof=roof, build=build, corners=len(plan)), '\n'.join(o) + '\n'


if __name__ == '__main__':
    print(job(int(sys.argv[1]), 'odd' in sys.argv[2:], heaters=asked_heaters(sys.argv))[2])
