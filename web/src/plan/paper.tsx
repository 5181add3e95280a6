// SPDX-License-Identifier: MIT
// The drawing's ink: walls, doors, obstacles, connections, heaters, and dimensions.

import { eachBox } from '../api/read';
import type { View } from '../api/types';
import type { Units } from '../state/settings';
import { printLength } from '../units/length';
import { words } from '../words';
import { along, clear, side, sides, turning, type Point } from './geometry';
import type { Door, Drawing } from './model';
import type { Sheet } from './sheet';

const path = (points: readonly Point[], close = true) => points.map(([x, y], i) => `${i ? 'L' : 'M'}${x.toFixed(1)} ${y.toFixed(1)}`).join('') + (close ? 'Z' : '');

export function Outline({ drawing, sheet }: { drawing: Drawing; sheet: Sheet }) {
    return <path class="floor" d={path(drawing.corners.map(sheet.to))} />;
}

/** Length of each side, outside of it, along it. */
export function Dimensions({ drawing, sheet, units }: { drawing: Drawing; sheet: Sheet; units: Units }) {
    const out = turning(drawing.corners) > 0 ? 1 : -1;
    return (
        <g class="dimensions" aria-hidden="true">
            {sides(drawing.corners).map((s, index) => {
                const [ax, ay] = sheet.to(s.from);
                const [bx, by] = sheet.to(s.to);
                // outside is right of the way for corners that go counter-clockwise; the sheet's y looks down
                const n: Point = [s.way[1] * out, s.way[0] * out];
                const off = 22;
                const [x, y] = [(ax + bx) / 2 + n[0] * off, (ay + by) / 2 + n[1] * off];
                let angle = (Math.atan2(by - ay, bx - ax) * 180) / Math.PI;
                if (angle > 91 || angle < -89) angle += 180;
                const line = (d: number) => `M${ax + n[0] * d} ${ay + n[1] * d}L${bx + n[0] * d} ${by + n[1] * d}`;
                if (Math.hypot(bx - ax, by - ay) < 24) return null;
                return (
                    <g key={index}>
                        <path class="thin" d={`${line(14)}M${ax + n[0] * 5} ${ay + n[1] * 5}L${ax + n[0] * 18} ${ay + n[1] * 18}M${bx + n[0] * 5} ${by + n[1] * 5}L${bx + n[0] * 18} ${by + n[1] * 18}`} />
                        <text x={x + n[0] * 4} y={y + n[1] * 4} transform={`rotate(${angle} ${x + n[0] * 4} ${y + n[1] * 4})`}>
                            {printLength(s.long, units)}
                        </text>
                    </g>
                );
            })}
        </g>
    );
}

/** A door: the gap, the leaf and its swing. */
export function doorPath(drawing: Drawing, door: Door, sheet: Sheet): string {
    const s = side(drawing.corners, door.wall);
    const inward = turning(drawing.corners) > 0 ? 1 : -1;
    const sign = (door.swingsIn ? 1 : -1) * inward;
    const near = along(s, door.offset);
    const far = along(s, door.offset + door.width);
    const [hinge, jamb] = door.hingeFar ? [far, near] : [near, far];
    const open: Point = [hinge[0] - s.way[1] * sign * door.width, hinge[1] + s.way[0] * sign * door.width];
    const [h, j, o] = [sheet.to(hinge), sheet.to(jamb), sheet.to(open)];
    const radius = door.width * sheet.scale;
    const turn = (j[0] - h[0]) * (o[1] - h[1]) - (j[1] - h[1]) * (o[0] - h[0]) > 0 ? 1 : 0;
    return `M${h[0]} ${h[1]}L${o[0]} ${o[1]}M${j[0]} ${j[1]}A${radius} ${radius} 0 0 ${turn} ${o[0]} ${o[1]}`;
}

export function doorGap(drawing: Drawing, door: Door, sheet: Sheet): string {
    const s = side(drawing.corners, door.wall);
    return path([sheet.to(along(s, door.offset)), sheet.to(along(s, door.offset + door.width))], false);
}

export function Plant({ view, sheet }: { view: View; sheet: Sheet }) {
    const rects: { n: number; a: Point; b: Point }[] = [];
    eachBox(view.geometry.boxes, (piece, box) => {
        const row = view.pieces[piece];
        if (row?.part === 'heater') rects.push({ n: row.heater, a: sheet.to([box[0]!, box[4]!]), b: sheet.to([box[3]!, box[1]!]) });
    });
    return (
        <g class="plant" aria-hidden="true">
            {view.layout?.['working-space'].map((b, i) => {
                const [x, y] = sheet.to([b[0]!, b[4]!]);
                return <rect key={`w${i}`} class="working" x={x} y={y} width={(b[3]! - b[0]!) * sheet.scale} height={(b[4]! - b[1]!) * sheet.scale} />;
            })}
            {rects.map(({ n, a, b }) => (
                <g key={n}>
                    <rect x={a[0]} y={a[1]} width={b[0] - a[0]} height={b[1] - a[1]} />
                    <text x={(a[0] + b[0]) / 2} y={(a[1] + b[1]) / 2}>
                        {n}
                    </text>
                </g>
            ))}
        </g>
    );
}

/** Free distances from a thing to the walls, while it is held. */
export function Clear({ drawing, at, half, sheet, units }: { drawing: Drawing; at: Point; half: Point; sheet: Sheet; units: Units }) {
    const ways: Point[] = [[1, 0], [-1, 0], [0, 1], [0, -1]];
    return (
        <g class="clear" aria-hidden="true">
            {ways.map((way) => {
                const from: Point = [at[0] + way[0] * half[0], at[1] + way[1] * half[1]];
                const free = clear(drawing.corners, from, way);
                if (free === null || free < 0.02) return null;
                const end: Point = [from[0] + way[0] * free, from[1] + way[1] * free];
                const [a, b] = [sheet.to(from), sheet.to(end)];
                return (
                    <g key={way.join()}>
                        <path d={`M${a[0]} ${a[1]}L${b[0]} ${b[1]}`} />
                        <text x={(a[0] + b[0]) / 2 + (way[1] ? 6 : 0)} y={(a[1] + b[1]) / 2 - (way[0] ? 6 : 0)} class={way[1] ? 'start' : ''}>
                            {printLength(free, units)}
                        </text>
                    </g>
                );
            })}
        </g>
    );
}

export const connectionName = (name: string) => words.given.connections[name] ?? name;
