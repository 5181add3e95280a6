// SPDX-License-Identifier: MIT
// The drawing as numbers: read off the survey, and turned back into edits of it.

import { at } from '../api/paths';
import type { Edit, Json } from '../api/types';
import type { Units } from '../state/settings';
import { printLength, readLength } from '../units/length';
import { along, foot, inside, nearest, side, type Point } from './geometry';

export interface Door {
    wall: number;
    offset: number;
    width: number;
    swingsIn: boolean;
    hingeFar: boolean;
}
export interface Obstacle {
    name: string;
    min: number[];
    max: number[];
}
export interface Connection {
    name: string;
    at: number[];
    given: boolean;
}
export interface Drawing {
    corners: Point[];
    doors: Door[];
    obstacles: Obstacle[];
    connections: Connection[];
}

const lengths = (value: Json | undefined): number[] | null => {
    if (!Array.isArray(value)) return null;
    const read = value.map(readLength);
    return read.includes(null) ? null : (read as number[]);
};

/** What the survey draws; null where its plan cannot be read. */
export function read(survey: Json, placed: { name: string; at: number[] }[] = []): Drawing | null {
    const plan = at(survey, ['room', 'plan']);
    if (!Array.isArray(plan)) return null;
    const corners = plan.map(lengths);
    if (corners.some((one) => one?.length !== 2)) return null;
    const list = (name: string) => (at(survey, ['room', name]) as { [k: string]: Json }[] | undefined) ?? [];
    const doors = list('door').map((one) => ({
        wall: Number(one.wall) - 1,
        offset: readLength(one.offset) ?? 0,
        width: readLength(one.width) ?? 0.9,
        swingsIn: one['swings-in'] !== false,
        hingeFar: one['hinge-far'] === true,
    }));
    const obstacles = list('obstacle').map((one) => {
        const a = lengths(one.from) ?? [0, 0, 0];
        const b = lengths(one.to) ?? [0, 0, 0];
        return { name: String(one.name ?? ''), min: a.map((v, i) => Math.min(v, b[i]!)), max: a.map((v, i) => Math.max(v, b[i]!)) };
    });
    const stated = (at(survey, ['connections']) as { [name: string]: { at?: Json } } | undefined) ?? {};
    const connections: Connection[] = [];
    for (const [name, one] of Object.entries(stated)) {
        const where = lengths(one?.at);
        if (where?.length === 3) connections.push({ name, at: where, given: true });
    }
    for (const one of placed) {
        if (!connections.some((other) => other.name === one.name)) connections.push({ name: one.name, at: one.at, given: false });
    }
    return { corners: corners as unknown as Point[], doors, obstacles, connections };
}

/** The edits that make the survey draw `next` where it drew `now`. */
export function edits(now: Drawing, next: Drawing, units: Units): Edit[] {
    const say = (metres: number) => printLength(metres, units);
    const out: Edit[] = [];
    const same = (a: readonly number[], b: readonly number[]) => a.length === b.length && a.every((v, i) => Math.abs(v - b[i]!) < 1e-6);
    const changed = (a: readonly number[], b: readonly number[]) => !same(a, b);
    if (now.corners.length !== next.corners.length) {
        out.push({ path: ['room', 'plan'], value: next.corners.map((p) => p.map(say)) });
    } else {
        next.corners.forEach((p, i) => changed(now.corners[i]!, p) && out.push({ path: ['room', 'plan', i], value: p.map(say) }));
    }
    next.doors.slice(0, now.doors.length).forEach((door, i) => {
        const old = now.doors[i]!;
        if (door.wall !== old.wall) out.push({ path: ['room', 'door', i, 'wall'], value: door.wall + 1 });
        if (Math.abs(door.offset - old.offset) > 1e-6) out.push({ path: ['room', 'door', i, 'offset'], value: say(door.offset) });
        if (Math.abs(door.width - old.width) > 1e-6) out.push({ path: ['room', 'door', i, 'width'], value: say(door.width) });
    });
    next.obstacles.slice(0, now.obstacles.length).forEach((one, i) => {
        const old = now.obstacles[i]!;
        if (changed(old.min, one.min) || changed(old.max, one.max)) {
            out.push({ path: ['room', 'obstacle', i, 'from'], value: one.min.map(say) }, { path: ['room', 'obstacle', i, 'to'], value: one.max.map(say) });
        }
    });
    for (const one of next.connections) {
        const old = now.connections.find((other) => other.name === one.name);
        if (one.given && (!old?.given || changed(old.at, one.at))) out.push({ path: ['connections', one.name, 'at'], value: one.at.map(say) });
    }
    return out;
}

/** New corners; doors stay on their walls and connections go with the walls they are on. */
export function reshape(now: Drawing, corners: Point[]): Drawing {
    const doors = now.doors.map((door) => {
        const wall = door.wall < corners.length ? door.wall : 0;
        const room = side(corners, wall).long - door.width;
        return { ...door, wall, offset: Math.max(0, Math.min(door.offset, room)) };
    });
    const sameWalls = corners.length === now.corners.length;
    const connections = now.connections.map((one) => {
        const here: Point = [one.at[0]!, one.at[1]!];
        const on = nearest(now.corners, here);
        const z = one.at[2]!;
        if (on.off > 0.02) {
            if (inside(corners, here)) return one;
            const near = nearest(corners, here);
            return { ...one, at: [...along(side(corners, near.wall), near.along), z] };
        }
        const wall = sameWalls ? on.wall : nearest(corners, here).wall;
        const target = side(corners, wall);
        const by = sameWalls ? Math.min(on.along, target.long) : foot(target, here).along;
        return { ...one, at: [...along(target, by), z] };
    });
    return { ...now, corners, doors, connections };
}

/** A wholly new outline drawn by hand: what lies outside it leaves, the rest is fitted to it. */
export function redraw(survey: Json, now: Drawing, corners: Point[], units: Units): Edit[] {
    const next = reshape(now, corners);
    const out: Edit[] = [{ path: ['room', 'plan'], value: corners.map((p) => p.map((v) => printLength(v, units))) }];
    out.push(...edits({ ...now, corners }, next, units));
    const walls = (at(survey, ['room', 'wall']) as { number?: number }[] | undefined) ?? [];
    for (let i = walls.length - 1; i >= 0; --i) {
        if ((walls[i]!.number ?? 0) > corners.length) out.push({ path: ['room', 'wall', i], remove: true });
    }
    if (Number(at(survey, ['room', 'ceiling-slope', 'wall']) ?? 0) > corners.length) out.push({ path: ['room', 'ceiling-slope'], remove: true });
    for (let i = now.obstacles.length - 1; i >= 0; --i) {
        const { min, max } = now.obstacles[i]!;
        const middle: Point = [(min[0]! + max[0]!) / 2, (min[1]! + max[1]!) / 2];
        if (!inside(corners, middle)) out.push({ path: ['room', 'obstacle', i], remove: true });
    }
    return out;
}
