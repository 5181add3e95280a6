// SPDX-License-Identifier: MIT
// Layouts are named by their place: wall-1-3-at-12-24.5 has banks 12 in and 24-1/2 in along walls 1 and 3;
// rack-two-sided-1-at-48-66 has its corner there. Moving a plant is writing its new name.

const inches = (metres: number): string => String(Math.round((metres / 0.0254) * 2) / 2);

/** The name with bank `bank` (from 1) on `wall`, `along` metres from where the wall starts. Banks stand by rising wall, and those on
 * one wall in line, as one. */
export function onWall(id: string, bank: number, wall: number, along: number): string {
    const found = /^wall-((?:\d+-)*\d+)-at-((?:[\d.]+-)*[\d.]+)/.exec(id);
    const walls = found?.[1]!.split('-').map(Number) ?? [wall];
    const at = found?.[2]!.split('-') ?? [];
    const inLine = (on: number, from: string) => `wall-${walls.map(() => on).join('-')}-at-${from}`;
    if (walls.length !== at.length || walls.length < 2 || bank > walls.length) return inLine(wall, inches(along));
    const banks = walls.map((on, k) => (k === bank - 1 ? { on: wall, from: inches(along) } : { on, from: at[k]! }));
    banks.sort((one, other) => one.on - other.on);
    if (new Set(banks.map((one) => one.on)).size < banks.length) return inLine(wall, inches(along));
    return `wall-${banks.map((one) => one.on).join('-')}-at-${banks.map((one) => one.from).join('-')}`;
}

/** The name with the rack moved in plan, metres; null where the name does not tell a corner. */
export function rackMoved(id: string, dx: number, dy: number): string | null {
    const found = /^(rack-.*-at)-([\d.]+)-([\d.]+)(-.*)?$/.exec(id);
    if (!found) return null;
    const moved = (text: string, by: number) => inches(Math.max(0, Number(text) * 0.0254 + by));
    return `${found[1]}-${moved(found[2]!, dx)}-${moved(found[3]!, dy)}`;
}
