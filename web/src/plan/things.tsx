// SPDX-License-Identifier: MIT
// Putting things into the room, and taking them out.

import type { Edit } from '../api/types';
import { edit } from '../state/job';
import { units, type Units } from '../state/settings';
import { printLength } from '../units/length';
import { words } from '../words';
import { along, side, sides, type Point } from './geometry';
import { edits, reshape, type Drawing } from './model';
import { chosen, present, type Chosen } from './pick';

const text = words.plan;
const say = (metres: number) => printLength(metres, units.value);

function middle(d: Drawing): Point {
    const n = d.corners.length;
    return [d.corners.reduce((sum, p) => sum + p[0], 0) / n, d.corners.reduce((sum, p) => sum + p[1], 0) / n];
}

function addDoor(d: Drawing): void {
    const free = sides(d.corners)
        .map((s, wall) => ({ wall, long: s.long, taken: d.doors.some((door) => door.wall === wall) }))
        .sort((a, b) => Number(a.taken) - Number(b.taken) || b.long - a.long)[0]!;
    const width = 0.9144;
    void edit([{ path: ['room', 'door'], append: { wall: free.wall + 1, offset: say(Math.max(0, (free.long - width) / 2)), width: say(width) } }]);
    chosen.value = { kind: 'door', index: d.doors.length };
}

function addObstacle(d: Drawing): void {
    const [x, y] = middle(d);
    const corner = (by: number, z: string) => [say(x + by), say(y + by), z];
    void edit([
        {
            path: ['room', 'obstacle'],
            append: { name: `${text.newObstacle} ${d.obstacles.length + 1}`, from: corner(-0.1524, '0 ft'), to: corner(0.1524, say(2.4384)) },
        },
    ]);
    chosen.value = { kind: 'obstacle', index: d.obstacles.length };
}

/** A corner in the middle of the chosen wall, or of the longest. */
function addCorner(d: Drawing): void {
    const longest = sides(d.corners).reduce((best, s, i, list) => (s.long > list[best]!.long ? i : best), 0);
    const what = present(d);
    const wall = what?.kind === 'wall' ? what.index : longest;
    const s = side(d.corners, wall);
    const half = s.long / 2;
    const corners = [...d.corners.slice(0, wall + 1), along(s, half), ...d.corners.slice(wall + 1)];
    // walls after the new corner count one more, and what hangs on them goes along
    const doors = d.doors.map((door) => {
        if (door.wall > wall) return { ...door, wall: door.wall + 1 };
        if (door.wall === wall && door.offset + door.width / 2 > half) return { ...door, wall: wall + 1, offset: Math.max(0, door.offset - half) };
        return door;
    });
    void edit(edits(d, { ...d, corners, doors }, units.value));
    chosen.value = { kind: 'corner', index: wall + 1 };
}

export function Additions({ drawing }: { drawing: Drawing }) {
    const what = present(drawing);
    const removable = what ? removal(drawing, what, units.value) : null;
    return (
        <>
            <button type="button" class="tool" onClick={() => addDoor(drawing)}>
                + {text.newDoor}
            </button>
            <button type="button" class="tool" onClick={() => addObstacle(drawing)}>
                + {text.newObstacle}
            </button>
            <button type="button" class="tool" title={text.addCorner} onClick={() => addCorner(drawing)}>
                + {text.chosen.corner(drawing.corners.length + 1).toLowerCase().split(' ')[0]}
            </button>
            <button
                type="button"
                class="tool"
                disabled={!removable}
                onClick={() => {
                    chosen.value = null;
                    if (removable) void edit(removable);
                }}
            >
                {text.remove}
            </button>
        </>
    );
}

/** The edits that take a thing out, or null where it must stay. */
export function removal(d: Drawing, what: Chosen, inUnits: Units): Edit[] | null {
    switch (what.kind) {
        case 'corner': {
            if (d.corners.length <= 3) return null;
            const corners = d.corners.filter((_, i) => i !== what.index);
            const doors = d.doors.map((door) => ({ ...door, wall: door.wall >= what.index && door.wall > 0 ? door.wall - 1 : door.wall }));
            return edits(d, reshape({ ...d, doors }, corners), inUnits);
        }
        case 'door':
            return d.doors.length > 1 ? [{ path: ['room', 'door', what.index], remove: true }] : null;
        case 'obstacle':
            return [{ path: ['room', 'obstacle', what.index], remove: true }];
        case 'connection': {
            const one = d.connections[what.index];
            return one?.given ? [{ path: ['connections', one.name], remove: true }] : null;
        }
        case 'wall':
            return null;
    }
}
