// SPDX-License-Identifier: MIT
// The room itself: floor, walls seen from inside only, doors, obstacles, and marks where the building is met.

import * as THREE from 'three';
import type { RoomView } from '../api/types';
import type { Palette } from './palette';

const flat = (colour: number, side: THREE.Side = THREE.FrontSide) =>
    new THREE.MeshBasicMaterial({ color: colour, side, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 });

function quad(corners: number[][]): THREE.BufferGeometry {
    const p = corners.flat();
    return new THREE.BufferGeometry().setAttribute('position', new THREE.Float32BufferAttribute(p, 3)).setIndex([0, 1, 2, 0, 2, 3]);
}

const lines = (points: number[], colour: number) =>
    new THREE.LineSegments(
        new THREE.BufferGeometry().setAttribute('position', new THREE.Float32BufferAttribute(points, 3)),
        new THREE.LineBasicMaterial({ color: colour }),
    );

/** Everything of the room but the plant. Corners go counter-clockwise, so a wall's inner face looks left of its way. */
export function shell(room: RoomView, palette: Palette): THREE.Group {
    const group = new THREE.Group();
    const outline = new THREE.Shape(room.plan.map(([x, y]) => new THREE.Vector2(x, y)));
    group.add(new THREE.Mesh(new THREE.ShapeGeometry(outline), flat(palette.floor)));
    const inner = flat(palette.wall);
    const edge: number[] = [];
    const over = (corner: number) => room.heights?.[corner] ?? room.ceiling;
    room.plan.forEach(([x0, y0], index) => {
        const next = (index + 1) % room.plan.length;
        const [x1, y1] = room.plan[next]!;
        const h0 = over(index);
        const h1 = over(next);
        group.add(new THREE.Mesh(quad([[x0!, y0!, 0], [x1!, y1!, 0], [x1!, y1!, h1], [x0!, y0!, h0]].reverse()), inner));
        edge.push(x0!, y0!, 0, x1!, y1!, 0, x0!, y0!, h0, x1!, y1!, h1, x0!, y0!, 0, x0!, y0!, h0);
    });
    group.add(lines(edge, palette.soft));
    doors(room, palette, group);
    for (const one of room.obstacles) {
        const b = one.box;
        const body = new THREE.Mesh(new THREE.BoxGeometry(b[3]! - b[0]!, b[4]! - b[1]!, b[5]! - b[2]!), new THREE.MeshLambertMaterial({ color: new THREE.Color(...palette.obstacle) }));
        body.position.set((b[0]! + b[3]!) / 2, (b[1]! + b[4]!) / 2, (b[2]! + b[5]!) / 2);
        group.add(body);
    }
    return group;
}

function doors(room: RoomView, palette: Palette, group: THREE.Group): void {
    for (const door of room.doors) {
        // the view counts a door's wall as the plan's sides are listed
        const [x0, y0] = room.plan[door.wall] ?? [];
        const [x1, y1] = room.plan[(door.wall + 1) % room.plan.length] ?? [];
        if (x0 === undefined || x1 === undefined) continue;
        const long = Math.hypot(x1 - x0, y1! - y0!);
        const dx = (x1 - x0) / long;
        const dy = (y1! - y0!) / long;
        const at = (along: number, z: number) => [x0 + dx * along - dy * 0.012, y0! + dy * along + dx * 0.012, z];
        const a = door.offset;
        const b = door.offset + door.width;
        group.add(new THREE.Mesh(quad([at(a, 0), at(b, 0), at(b, door.height), at(a, door.height)].reverse()), flat(palette.door)));
        group.add(lines([...at(a, 0), ...at(a, door.height), ...at(b, 0), ...at(b, door.height), ...at(a, door.height), ...at(b, door.height)], palette.line));
    }
}
