// SPDX-License-Identifier: MIT
// Plane geometry of the drawing, metres.

export type Point = readonly [number, number];

export const distance = (a: Point, b: Point): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

export interface Side {
    from: Point;
    to: Point;
    long: number;
    /** Unit vector along it. */
    way: Point;
}

export function side(plan: readonly Point[], index: number): Side {
    const from = plan[index]!;
    const to = plan[(index + 1) % plan.length]!;
    const long = distance(from, to) || 1e-9;
    return { from, to, long, way: [(to[0] - from[0]) / long, (to[1] - from[1]) / long] };
}

export const sides = (plan: readonly Point[]): Side[] => plan.map((_, index) => side(plan, index));

export const along = (s: Side, by: number): Point => [s.from[0] + s.way[0] * by, s.from[1] + s.way[1] * by];

/** Where a point falls on a side: how far along, kept within it, and how far off. */
export function foot(s: Side, p: Point): { along: number; off: number } {
    const raw = (p[0] - s.from[0]) * s.way[0] + (p[1] - s.from[1]) * s.way[1];
    const kept = Math.min(s.long, Math.max(0, raw));
    return { along: kept, off: distance(along(s, kept), p) };
}

export function nearest(plan: readonly Point[], p: Point): { wall: number; along: number; off: number } {
    return sides(plan)
        .map((s, wall) => ({ wall, ...foot(s, p) }))
        .reduce((best, one) => (one.off < best.off ? one : best));
}

/** Twice the area, positive where the corners go counter-clockwise. */
export const turning = (plan: readonly Point[]): number =>
    plan.reduce((sum, [x, y], i) => {
        const [u, v] = plan[(i + 1) % plan.length]!;
        return sum + x * v - u * y;
    }, 0);

export function inside(plan: readonly Point[], [x, y]: Point): boolean {
    let within = false;
    for (let i = 0, j = plan.length - 1; i < plan.length; j = i++) {
        const [xi, yi] = plan[i]!;
        const [xj, yj] = plan[j]!;
        if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi) within = !within;
    }
    return within;
}

const cross = (a: Point, b: Point, c: Point) => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/** Two sides that do not share a corner meet. */
export function crosses(plan: readonly Point[]): boolean {
    const all = sides(plan);
    for (let i = 0; i < all.length; ++i) {
        for (let j = i + 2; j < all.length; ++j) {
            if (i === 0 && j === all.length - 1) continue;
            const [a, b, c, d] = [all[i]!.from, all[i]!.to, all[j]!.from, all[j]!.to];
            if (cross(a, b, c) * cross(a, b, d) < 0 && cross(c, d, a) * cross(c, d, b) < 0) return true;
        }
    }
    return false;
}

/** How far one may go from a point in a direction before a wall stands in the way. */
export function clear(plan: readonly Point[], from: Point, way: Point): number | null {
    let least: number | null = null;
    for (const s of sides(plan)) {
        const bottom = way[0] * s.way[1] - way[1] * s.way[0];
        if (Math.abs(bottom) < 1e-12) continue;
        const dx = s.from[0] - from[0];
        const dy = s.from[1] - from[1];
        const t = (dx * s.way[1] - dy * s.way[0]) / bottom;
        const u = (dx * way[1] - dy * way[0]) / bottom;
        if (t > 1e-9 && u > -1e-9 && u < s.long + 1e-9 && (least === null || t < least)) least = t;
    }
    return least;
}

/**
 * A point drawn to what is near it: the x or y of another corner within `pull`, else the grid.
 */
export function snap(p: Point, to: readonly Point[], grid: number, pull: number): Point {
    const axis = (value: number, others: number[]) => {
        const best = others.reduce<number | null>((kept, one) => (Math.abs(one - value) < Math.abs((kept ?? Infinity) - value) ? one : kept), null);
        return best !== null && Math.abs(best - value) <= pull ? best : Math.round(value / grid) * grid;
    };
    return [axis(p[0], to.map(([x]) => x)), axis(p[1], to.map(([, y]) => y))];
}

/** The direction from `from` to `p`, drawn to the nearest of eight where it is within some degrees of it. */
export function square(from: Point, p: Point, degrees = 9): Point {
    const long = distance(from, p);
    const angle = Math.atan2(p[1] - from[1], p[0] - from[0]);
    const step = Math.PI / 4;
    const near = Math.round(angle / step) * step;
    if (Math.abs(angle - near) > (degrees * Math.PI) / 180) return p;
    return [from[0] + Math.cos(near) * long, from[1] + Math.sin(near) * long];
}

/** A side made longer or shorter: the next side goes along where that keeps the room square, else its end alone moves. */
export function lengthen(plan: readonly Point[], wall: number, long: number): Point[] {
    const s = side(plan, wall);
    const n = plan.length;
    const by: Point = [s.way[0] * (long - s.long), s.way[1] * (long - s.long)];
    const opposite = side(plan, (wall + 2) % n);
    const parallel = n >= 4 && Math.abs(s.way[0] * opposite.way[1] - s.way[1] * opposite.way[0]) < 1e-6;
    const moved = new Set([(wall + 1) % n, ...(parallel ? [(wall + 2) % n] : [])]);
    return plan.map((p, i) => (moved.has(i) ? [p[0] + by[0], p[1] + by[1]] : p));
}
