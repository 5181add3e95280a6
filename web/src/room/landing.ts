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
    /** The layout's name there. */
    name?: string;
    box: { centre: [number, number]; long: number; deep: number; turn: number; low: number; high: number };
}

/** The nearest wall to a point of the floor on which the bank has room, and how far along it lies there, middle under the point. */
export function landing(room: RoomView, bank: Bank, at: { x: number; y: number }, units: Units): Landing | null {
    const b = bank.box;
    const sizes = [b[3]! - b[0]!, b[4]! - b[1]!];
    const long = Math.max(...sizes);
    const deep = Math.min(...sizes);
    let best: Landing | null = null;
    let least = Infinity;
    room.plan.forEach(([x0, y0], index) => {
        const [x1, y1] = room.plan[(index + 1) % room.plan.length]!;
        const length = Math.hypot(x1! - x0!, y1! - y0!);
        if (length < long) return;
        const dx = (x1! - x0!) / length;
        const dy = (y1! - y0!) / length;
        const off = Math.abs(-(at.x - x0!) * dy + (at.y - y0!) * dx);
        const foot = (at.x - x0!) * dx + (at.y - y0!) * dy;
        const beyond = Math.max(0, -foot, foot - length);
        if (Math.hypot(off, beyond) >= least) return;
        least = Math.hypot(off, beyond);
        const start = Math.min(length - long, Math.max(0, snapLength(foot - long / 2, units)));
        const middle = start + long / 2;
        best = {
            wall: room.walls[index]?.number ?? index + 1,
            along: start,
            box: {
                centre: [x0! + dx * middle - (dy * deep) / 2, y0! + dy * middle + (dx * deep) / 2],
                long, deep, turn: Math.atan2(dy, dx), low: b[2]!, high: b[5]!,
            },
        };
    });
    return best;
}

/** A rack taken by (dx, dy): all its banks go along, and stay within the room's bounds. */
export function carried(room: RoomView, banks: Bank[], dx: number, dy: number, units: Units): Landing & { by: [number, number] } {
    const over = (pick: (...list: number[]) => number, index: number) => pick(...banks.map((one) => one.box[index]!));
    const low = [over(Math.min, 0), over(Math.min, 1), over(Math.min, 2)] as const;
    const high = [over(Math.max, 3), over(Math.max, 4), over(Math.max, 5)] as const;
    const bound = (axis: 0 | 1, by: number) => {
        const all = room.plan.map((p) => p[axis]!);
        return snapLength(Math.min(Math.max(...all) - high[axis], Math.max(Math.min(...all) - low[axis], by)), units);
    };
    const by: [number, number] = [bound(0, dx), bound(1, dy)];
    return {
        wall: 0,
        along: 0,
        by,
        box: {
            centre: [(low[0] + high[0]) / 2 + by[0], (low[1] + high[1]) / 2 + by[1]],
            long: high[0] - low[0], deep: high[1] - low[1], turn: 0, low: low[2], high: high[2],
        },
    };
}
