// SPDX-License-Identifier: MIT
// Where a plant that is dragged would land.

import type { Bank, RoomView } from '../api/types';
import type { Units } from '../state/settings';
import { snapLength } from '../units/length';

export interface Landing {
    /** Number of the wall as the survey counts it; 0 for a rack, which stands free. */
    wall: number;
    /** Metres from where the wall starts to the bank's near end. */
    along: number;
    /** Of a rack: metres from the room's low corner to its own. */
    corner?: [number, number];
    /** The layout's name there. */
    name?: string;
    box: { centre: [number, number]; long: number; deep: number; turn: number; low: number; high: number };
}

/** Banks of one wall go together, as one. */
export function inLine(banks: Bank[], bank: Bank): Bank {
    const reach = (pick: (...list: number[]) => number, axis: number) => pick(...banks.map((one) => one.box[axis]!));
    return { ...bank, box: [...[0, 1, 2].map((axis) => reach(Math.min, axis)), ...[3, 4, 5].map((axis) => reach(Math.max, axis))] };
}

interface Side {
    number: number;
    from: [number, number];
    way: [number, number];
    length: number;
}

const sides = (room: RoomView): Side[] =>
    room.plan.map(([x0, y0], index) => {
        const [x1, y1] = room.plan[(index + 1) % room.plan.length]!;
        const length = Math.hypot(x1! - x0!, y1! - y0!);
        return { number: room.walls[index]?.number ?? index + 1, from: [x0!, y0!], way: [(x1! - x0!) / length, (y1! - y0!) / length], length };
    });

const foot = ({ from, way }: Side, at: { x: number; y: number }): number => (at.x - from[0]) * way[0] + (at.y - from[1]) * way[1];

/** How far along its wall from a bank's middle it is held, metres. */
export function gripOf(room: RoomView, bank: Bank, at: { x: number; y: number }): number {
    const own = sides(room).find((side) => side.number === bank.wall);
    const b = bank.box;
    return own ? foot(own, at) - foot(own, { x: (b[0]! + b[3]!) / 2, y: (b[1]! + b[4]!) / 2 }) : 0;
}

/** The nearest wall to a point of the floor on which the bank has room, and how far along it lies there, held where it was gripped. */
export function landing(room: RoomView, bank: Bank, at: { x: number; y: number }, grip: number, units: Units): Landing | null {
    const b = bank.box;
    const spans = [b[3]! - b[0]!, b[4]! - b[1]!];
    const long = Math.max(...spans);
    const deep = Math.min(...spans);
    let best: Landing | null = null;
    let least = Infinity;
    for (const side of sides(room)) {
        const { from, way, length } = side;
        if (length < long) continue;
        const off = Math.abs(-(at.x - from[0]) * way[1] + (at.y - from[1]) * way[0]);
        const along = foot(side, at);
        const far = Math.hypot(off, Math.max(0, -along, along - length));
        if (far >= least) continue;
        least = far;
        const start = Math.min(length - long, Math.max(0, snapLength(along - grip - long / 2, units)));
        const middle = start + long / 2;
        best = {
            wall: side.number,
            along: start,
            box: {
                centre: [from[0] + way[0] * middle - (way[1] * deep) / 2, from[1] + way[1] * middle + (way[0] * deep) / 2],
                long, deep, turn: Math.atan2(way[1], way[0]), low: b[2]!, high: b[5]!,
            },
        };
    }
    return best;
}

/** A rack taken by (dx, dy): all its banks go along, and stay within the room's bounds. */
export function carried(room: RoomView, banks: Bank[], dx: number, dy: number, units: Units): Landing & { by: [number, number] } {
    const [x0, y0, z0, x1, y1, z1] = inLine(banks, banks[0]!).box as [number, number, number, number, number, number];
    const low = [x0, y0, z0] as const;
    const high = [x1, y1, z1] as const;
    const all = (axis: 0 | 1) => room.plan.map((p) => p[axis]!);
    const bound = (axis: 0 | 1, by: number) =>
        snapLength(Math.min(Math.max(...all(axis)) - high[axis], Math.max(Math.min(...all(axis)) - low[axis], by)), units);
    const by: [number, number] = [bound(0, dx), bound(1, dy)];
    return {
        wall: 0,
        along: 0,
        by,
        corner: [low[0] + by[0] - Math.min(...all(0)), low[1] + by[1] - Math.min(...all(1))],
        box: {
            centre: [(low[0] + high[0]) / 2 + by[0], (low[1] + high[1]) / 2 + by[1]],
            long: high[0] - low[0], deep: high[1] - low[1], turn: 0, low: low[2], high: high[2],
        },
    };
}
