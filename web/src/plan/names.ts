// SPDX-License-Identifier: MIT
// Names beside the rings of connections, clear of other rings and names.

export interface Ring {
    x: number;
    y: number;
    text: string;
    onWall: boolean;
}

export interface Name {
    x: number;
    y: number;
    anchor: 'start' | 'middle' | 'end';
    /** The name as it is written: with an arrow where another ring stands between. */
    text: string;
}

/** Dots: of a ring, between ring and name, of a line of text and of a letter, the last two on the safe side. */
const radius = 6.5;
const gap = 10;
const high = 12;
const letter = 6.8;

type Box = [x0: number, y0: number, x1: number, y1: number];
const meet = (a: Box, b: Box) => a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3];

function box(name: Name): Box {
    const long = name.text.length * letter;
    const from = name.anchor === 'start' ? name.x : name.anchor === 'end' ? name.x - long : name.x - long / 2;
    return [from, name.y - high + 2, from + long, name.y + 2];
}

/** In the order of the rings. A name at a wall stands inward of it, past what is in its way; one in the room above, below or beside. */
export function placeNames(rings: readonly Ring[], width: number): Name[] {
    const taken: Box[] = rings.map(({ x, y }) => [x - radius, y - radius, x + radius, y + radius]);
    const names: Name[] = [];
    const order = rings.map((ring, index) => ({ ring, index })).sort((a, b) => Number(b.ring.onWall) - Number(a.ring.onWall));
    for (const { ring, index } of order) {
        const inward = ring.x > width / 2 ? -1 : 1;
        const { text } = ring;
        const beside = (x: number, way: number, y = ring.y + 4): Name => ({ x: x + way * gap, y, anchor: way < 0 ? 'end' : 'start', text });
        const past = rings
            .filter((other) => Math.abs(other.y - ring.y) < high && (other.x - ring.x) * inward > 0)
            .map((other) => ({ ...beside(other.x, inward), text: inward < 0 ? `${text} →` : `← ${text}` }));
        const around: Name[] = [
            { x: ring.x, y: ring.y - 9, anchor: 'middle', text }, { x: ring.x, y: ring.y + 18, anchor: 'middle', text },
            ...[0, -high, high, -2 * high, 2 * high].flatMap((by) => [beside(ring.x, inward, ring.y + 4 + by), beside(ring.x, -inward, ring.y + 4 + by)]),
        ];
        const choices = ring.onWall ? [beside(ring.x, inward), ...past, ...around] : around;
        const name = choices.find((one) => !taken.some((other, k) => k !== index && meet(box(one), other))) ?? choices[0]!;
        taken.push(box(name));
        names[index] = name;
    }
    return names;
}
