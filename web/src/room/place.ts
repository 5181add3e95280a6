// SPDX-License-Identifier: MIT
// Layouts are named by their place: wall-1-3-at-12-24.5 has banks 12 in and 24-1/2 in along walls 1 and 3;
// rack-two-sided-1-at-48-66 has its corner there. Moving a plant is writing its new name.

const inches = (metres: number): string => String(Math.round((metres / 0.0254) * 2) / 2);

/** The name with bank `bank` (from 1) on `wall`, `along` metres from where the wall starts. */
export function onWall(id: string, bank: number, wall: number, along: number): string {
    const found = /^wall-((?:\d+-)*\d+)-at-((?:[\d.]+-)*[\d.]+)/.exec(id);
    const walls = found?.[1]!.split('-') ?? [];
    const at = found?.[2]!.split('-') ?? [];
    if (walls.length < 2 || walls.length !== at.length || bank > walls.length) return `wall-${wall}-at-${inches(along)}`;
    walls[bank - 1] = String(wall);
    at[bank - 1] = inches(along);
    return `wall-${walls.join('-')}-at-${at.join('-')}`;
}

/** The name with the rack moved in plan, metres; null where the name does not tell a corner. */
export function rackMoved(id: string, dx: number, dy: number): string | null {
    const found = /^(rack-.*-at)-([\d.]+)-([\d.]+)(-.*)?$/.exec(id);
    if (!found) return null;
    const moved = (text: string, by: number) => inches(Math.max(0, Number(text) * 0.0254 + by));
    return `${found[1]}-${moved(found[2]!, dx)}-${moved(found[3]!, dy)}`;
}
