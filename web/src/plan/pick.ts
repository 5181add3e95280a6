// SPDX-License-Identifier: MIT
// What is chosen in the drawing, and moving it.

import { signal } from '@preact/signals';
import { along, foot, lengthen, nearest, side, type Point } from './geometry';
import { reshape, type Drawing } from './model';

export type Chosen =
    | { kind: 'corner' | 'wall' | 'door' | 'obstacle'; index: number }
    | { kind: 'connection'; index: number };

export const chosen = signal<Chosen | null>(null);

/** Everything that can be chosen, in the order the keyboard goes. */
export function all(d: Drawing): Chosen[] {
    return [
        ...d.corners.map((_, index) => ({ kind: 'corner' as const, index })),
        ...d.corners.map((_, index) => ({ kind: 'wall' as const, index })),
        ...d.doors.map((_, index) => ({ kind: 'door' as const, index })),
        ...d.obstacles.map((_, index) => ({ kind: 'obstacle' as const, index })),
        ...d.connections.map((_, index) => ({ kind: 'connection' as const, index })),
    ];
}

/** What is chosen, where the drawing still has it: an edit or an undo may have taken it away. */
export function present(d: Drawing): Chosen | null {
    const what = chosen.value;
    if (!what) return null;
    const list = { corner: d.corners, wall: d.corners, door: d.doors, obstacle: d.obstacles, connection: d.connections }[what.kind];
    return what.index < list.length ? what : null;
}

export const same = (a: Chosen | null, b: Chosen | null): boolean => a?.kind === b?.kind && a?.index === b?.index;

const replace = <T>(list: readonly T[], index: number, value: T): T[] => list.map((one, i) => (i === index ? value : one));

/** A place that stands for the thing, for the pointer to hold it by. */
export function anchor(d: Drawing, what: Chosen): Point {
    switch (what.kind) {
        case 'corner':
            return d.corners[what.index]!;
        case 'wall': {
            const s = side(d.corners, what.index);
            return along(s, s.long / 2);
        }
        case 'door': {
            const door = d.doors[what.index]!;
            return along(side(d.corners, door.wall), door.offset + door.width / 2);
        }
        case 'obstacle': {
            const { min, max } = d.obstacles[what.index]!;
            return [(min[0]! + max[0]!) / 2, (min[1]! + max[1]!) / 2];
        }
        case 'connection': {
            const { at } = d.connections[what.index]!;
            return [at[0]!, at[1]!];
        }
    }
}

/** The drawing with the thing's anchor at `to`, as near as its nature lets it: doors along walls, walls square to themselves. */
export function moved(d: Drawing, what: Chosen, to: Point, step: (metres: number) => number): Drawing {
    const from = anchor(d, what);
    switch (what.kind) {
        case 'corner':
            return reshape(d, replace(d.corners, what.index, to));
        case 'wall': {
            const s = side(d.corners, what.index);
            const normal: Point = [-s.way[1], s.way[0]];
            const by = step((to[0] - from[0]) * normal[0] + (to[1] - from[1]) * normal[1]);
            const shift = (p: Point): Point => [p[0] + normal[0] * by, p[1] + normal[1] * by];
            const end = (what.index + 1) % d.corners.length;
            return reshape(d, d.corners.map((p, i) => (i === what.index || i === end ? shift(p) : p)));
        }
        case 'door': {
            const door = d.doors[what.index]!;
            const other = nearest(d.corners, to);
            const own = { wall: door.wall, ...foot(side(d.corners, door.wall), to) };
            // it changes walls only where another is clearly the nearer
            const near = other.off < own.off - 0.1 ? other : own;
            const s = side(d.corners, near.wall);
            const offset = Math.max(0, Math.min(s.long - door.width, step(near.along - door.width / 2)));
            return { ...d, doors: replace(d.doors, what.index, { ...door, wall: near.wall, offset }) };
        }
        case 'obstacle': {
            const one = d.obstacles[what.index]!;
            const by = [step(one.min[0]! + to[0] - from[0]) - one.min[0]!, step(one.min[1]! + to[1] - from[1]) - one.min[1]!, 0];
            const shift = (p: number[]) => p.map((v, i) => v + by[i]!);
            return { ...d, obstacles: replace(d.obstacles, what.index, { ...one, min: shift(one.min), max: shift(one.max) }) };
        }
        case 'connection': {
            const one = d.connections[what.index]!;
            const near = nearest(d.corners, to);
            const s = side(d.corners, near.wall);
            const onWall = near.off < 0.25 || one.name !== 'drain';
            const place = onWall ? along(s, Math.min(s.long, step(foot(s, to).along))) : ([step(to[0]), step(to[1])] as Point);
            return { ...d, connections: replace(d.connections, what.index, { ...one, given: true, at: [...place, one.at[2]!] }) };
        }
    }
}

export const withLength = (d: Drawing, wall: number, long: number): Drawing => reshape(d, lengthen(d.corners, wall, long));
