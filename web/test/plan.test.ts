// SPDX-License-Identifier: MIT
import { describe, expect, it } from 'vitest';
import { clear, crosses, inside, lengthen, side, snap, square, turning, type Point } from '../src/plan/geometry';
import { placeNames } from '../src/plan/names';
import { edits, read, redraw, reshape, type Drawing } from '../src/plan/model';
import { moved } from '../src/plan/pick';

const ft = 0.3048;
const square4: Point[] = [[0, 0], [20 * ft, 0], [20 * ft, 14 * ft], [0, 14 * ft]];
const survey = {
    room: {
        plan: [['0 ft', '0 ft'], ['20 ft', '0 ft'], ['20 ft', '14 ft'], ['0 ft', '14 ft']],
        door: [{ wall: 4, offset: '6 ft', width: '34 in' }],
        wall: [{ number: 4, build: 'masonry' }],
        obstacle: [{ name: 'pipe', from: ['0 ft', '13 ft', '0 ft'], to: ['1 ft', '14 ft', '10 ft'] }],
    },
    connections: { gas: { at: ['20 ft', '8 ft', '1 ft 6 in'] }, drain: { at: ['18 ft', '7 ft', '0 ft'] } },
};
const drawing = (): Drawing => read(survey)!;

describe('the plane', () => {
    it('tells which way corners go, and what is inside', () => {
        expect(turning(square4)).toBeCloseTo(2 * 20 * 14 * ft * ft, 9);
        expect(inside(square4, [1, 1])).toBe(true);
        expect(inside(square4, [-1, 1])).toBe(false);
    });
    it('finds walls that cross', () => {
        expect(crosses(square4)).toBe(false);
        expect(crosses([[0, 0], [2, 2], [2, 0], [0, 2]])).toBe(true);
    });
    it('measures the free way to a wall', () => {
        expect(clear(square4, [1, 1], [-1, 0])).toBeCloseTo(1, 9);
        expect(clear(square4, [1, 1], [0, 1])).toBeCloseTo(14 * ft - 1, 9);
        expect(clear(square4, [-1, 1], [-1, 0])).toBeNull();
    });
    it('snaps to other corners before the grid', () => {
        expect(snap([1.02, 2.26], [[1, 5]], 0.25, 0.05)).toEqual([1, 2.25]);
        const [x, y] = square([0, 0], [3, 0.1]);
        expect(y).toBeCloseTo(0, 9);
        expect(x).toBeCloseTo(Math.hypot(3, 0.1), 9);
        expect(square([0, 0], [3, 1])).toEqual([3, 1]);
    });
    it('makes a side longer and keeps the room square', () => {
        const longer = lengthen(square4, 0, 24 * ft);
        expect(longer[1]![0]).toBeCloseTo(24 * ft, 9);
        expect(longer[2]![0]).toBeCloseTo(24 * ft, 9);
        expect(longer[3]).toEqual(square4[3]);
        expect(side(longer, 0).long).toBeCloseTo(24 * ft, 9);
    });
});

describe('the drawing', () => {
    it('is read off the survey', () => {
        const now = drawing();
        expect(now.corners).toHaveLength(4);
        expect(now.doors[0]).toMatchObject({ wall: 3, swingsIn: true });
        expect(now.connections.map((one) => one.name)).toEqual(['gas', 'drain']);
        expect(read({ room: { plan: [['0 ft', 'x']] } })).toBeNull();
    });
    it('changes nothing when nothing changed', () => expect(edits(drawing(), drawing(), 'us')).toEqual([]));
    it('takes what is on a wall along with it, and leaves the rest', () => {
        const now = drawing();
        const next = reshape(now, [[0, 0], [22 * ft, 0], [22 * ft, 14 * ft], [0, 14 * ft]]);
        expect(edits(now, next, 'us')).toEqual([
            { path: ['room', 'plan', 1], value: ['22 ft', '0 ft'] },
            { path: ['room', 'plan', 2], value: ['22 ft', '14 ft'] },
            { path: ['connections', 'gas', 'at'], value: ['22 ft', '8 ft', '1 ft 6 in'] },
        ]);
    });
    it('slides a door along its wall, to the end and no farther', () => {
        const now = drawing();
        const far = moved(now, { kind: 'door', index: 0 }, [0, -5], (v) => v);
        expect(far.doors[0]!.offset).toBeCloseTo(14 * ft - 34 * 0.0254, 6);
    });
    it('drawn anew drops what no longer has a place', () => {
        const out = redraw(survey, drawing(), [[0, 0], [4, 0], [4, 3]], 'si');
        expect(out[0]).toEqual({ path: ['room', 'plan'], value: [['0 m', '0 m'], ['4 m', '0 m'], ['4 m', '3 m']] });
        expect(out).toContainEqual({ path: ['room', 'wall', 0], remove: true });
        expect(out).toContainEqual({ path: ['room', 'obstacle', 0], remove: true });
        expect(out).toContainEqual({ path: ['room', 'door', 0, 'wall'], value: 1 });
    });
    it('drawn anew is level where the wall its ceiling fell towards is gone', () => {
        const sloping = (wall: number) => ({ ...survey, room: { ...survey.room, 'ceiling-slope': { wall, low: '8 ft' } } });
        const gone = { path: ['room', 'ceiling-slope'], remove: true };
        expect(redraw(sloping(4), drawing(), [[0, 0], [4, 0], [4, 3]], 'si')).toContainEqual(gone);
        expect(redraw(sloping(3), drawing(), [[0, 0], [4, 0], [4, 3]], 'si')).not.toContainEqual(gone);
    });
});

describe('names of connections', () => {
    const ring = (x: number, y: number, text: string, onWall = true) => ({ x, y, text, onWall });
    it('stand inward of their wall, past a ring in the way, and do not cover one another', () => {
        const [gas, cold, drain] = placeNames([ring(500, 100, 'Gas'), ring(500, 120, 'Cold water'), ring(450, 122, 'Drain', false)], 600);
        expect(gas).toMatchObject({ x: 490, y: 104, anchor: 'end' });
        expect(cold).toEqual({ x: 440, y: 124, anchor: 'end', text: 'Cold water →' });
        expect(drain).toMatchObject({ x: 450, y: 140, anchor: 'middle' });
    });
    it('of one in the room goes below where a name is above', () => {
        const [, drain] = placeNames([ring(500, 100, 'Cold water'), ring(460, 114, 'Drain', false)], 600);
        expect(drain).toMatchObject({ x: 460, y: 132, anchor: 'middle' });
    });
});
