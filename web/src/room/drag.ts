// SPDX-License-Identifier: MIT
// The plant taken along a wall or to another: where it would land, and its outline there while it is held.

import * as THREE from 'three';
import type { Bank, RoomView } from '../api/types';
import type { Units } from '../state/settings';
import { snapLength } from '../units/length';

export interface Landing {
    /** Number of the wall as the survey counts it. */
    wall: number;
    /** Metres from the wall's first corner, as the survey goes round, to the plant's near end. */
    along: number;
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

/** Where a ray meets a level plane. */
export function onLevel(ray: THREE.Ray, z: number): THREE.Vector3 | null {
    return ray.intersectPlane(new THREE.Plane(new THREE.Vector3(0, 0, 1), -z), new THREE.Vector3());
}

/** The outline held over the room while dragging. */
export class Ghost {
    readonly lines = new THREE.LineSegments(
        new THREE.EdgesGeometry(new THREE.BoxGeometry(1, 1, 1)),
        new THREE.LineBasicMaterial({ color: 0xf08a00, depthTest: false }),
    );

    constructor() {
        this.lines.visible = false;
        this.lines.renderOrder = 5;
    }

    show(at: Landing | null): void {
        this.lines.visible = at !== null;
        if (!at) return;
        const { centre, long, deep, turn, low, high } = at.box;
        this.lines.position.set(centre[0], centre[1], (low + high) / 2);
        this.lines.rotation.z = turn;
        this.lines.scale.set(long, deep, Math.max(0.1, high - low));
    }
}
