// SPDX-License-Identifier: MIT
import type { Units } from '../state/settings';
import { printLength } from '../units/length';
import { words } from '../words';

const text = words.choice;

/** A length stays on one line. */
const unbroken = (length: string): string => length.replace(/ /g, '\u00a0').replace(/-/g, '\u2011');

/** "wall-1-3-at-0-118.5-fed-2" as a person would say it: where the banks stand, how far along, from which end they are fed. */
export function layoutSaid(id: string, units: Units): string {
    const found = /^(?:wall-([\d-]+?)|rack-(one|two)-sided-(?:wall-(\d+)|(\d+))(?:-rows-(\d+))?(?:-line-(\d+))?)(?:-at-([\d.-]+?))?(?:-fed-([\d-]+))?$/.exec(id);
    if (!found) return id.replace(/-/g, ' ');
    const [, onWalls, sides, byWall, turns, rows, line, places, fed] = found;
    const listed = (list: string | undefined) => list?.split('-') ?? [];
    const walls = listed(onWalls);
    const distinct = [...new Set(walls)];
    const inLine = line ? Number(line) : walls.length > distinct.length ? walls.length : 1;
    const where = sides ? text.rack[sides]! + (byWall ? text.byWall(byWall) : (text.turned[Number(turns) - 1] ?? '')) : text.wall(distinct);
    const along = listed(places).map((inches) => unbroken(printLength(Number(inches) * 0.0254, units)));
    return [
        where, rows ? text.rows(rows) : '', inLine > 1 ? text.inLine(inLine) : '', along.length > 0 ? text.at(along) : '',
        fed ? text.fed(listed(fed), walls.length > 1 || sides !== undefined) : '',
    ].join('');
}
