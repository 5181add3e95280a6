// SPDX-License-Identifier: MIT
import { describe, expect, it } from 'vitest';
import { carried, gripOf, landing } from '../src/room/landing';
import { onWall, rackMoved } from '../src/room/place';
import type { RoomView } from '../src/api/types';

const room: RoomView = {
    plan: [[0, 0], [6, 0], [6, 4], [0, 4]], ceiling: 3, doors: [], obstacles: [], connections: [],
    walls: [1, 2, 3, 4].map((number) => ({ number, build: 'masonry', outside: false, rated: false })),
};
const bank = { number: 1, wall: 1, box: [1, 0, 1, 3, 0.4, 2], heaters: [] };

describe('the plant moved', () => {
    it('is named by where it goes', () => {
        expect(onWall('wall-1-at-12', 1, 2, 0.762)).toBe('wall-2-at-30');
        expect(onWall('wall-1-3-at-12-24.5', 2, 4, 0.0254)).toBe('wall-1-4-at-12-1');
        expect(onWall('wall-1-3-at-12-24.5-fed-2', 1, 1, 0.5 * 0.0254)).toBe('wall-1-3-at-0.5-24.5');
        // two in line are one; banks stand by rising wall; two that come to one wall are in line
        expect(onWall('wall-1-1-at-30', 2, 3, 0.0254)).toBe('wall-3-3-at-1');
        expect(onWall('wall-1-3-at-12-24.5', 1, 4, 0.0254)).toBe('wall-3-4-at-24.5-1');
        expect(onWall('wall-1-3-at-12-24.5', 1, 3, 0.0254)).toBe('wall-3-3-at-1');
        expect(rackMoved('rack-two-sided-1-at-48-66', 0.0254 * 6, -0.0254 * 10)).toBe('rack-two-sided-1-at-54-56');
        expect(rackMoved('rack-two-sided-1.a', 1, 1)).toBeNull();
    });
    it('lands on the nearest wall that has room, held where it was gripped', () => {
        expect(landing(room, bank, { x: 3, y: 0.2 }, 0, 'us')).toMatchObject({ wall: 1 });
        expect(landing(room, bank, { x: 3, y: 0.2 }, 0, 'us')!.along).toBeCloseTo(2, 1);
        expect(landing(room, bank, { x: 5.9, y: 2 }, 0, 'si')).toMatchObject({ wall: 2, along: 1 });
        expect(landing(room, bank, { x: -1, y: 3.9 }, 0, 'si')!.wall).toBe(4);
        expect(landing(room, bank, { x: -1, y: 3.9 }, 0, 'si')!.along).toBe(0);
        expect(landing(room, bank, { x: 4, y: 0.2 }, 0.7, 'si')!.along).toBeCloseTo(2.3, 3);
        expect(gripOf(room, bank, { x: 2.7, y: 0.2 })).toBeCloseTo(0.7, 6);
        expect(gripOf(room, { ...bank, wall: 3, box: [1, 3.6, 1, 3, 4, 2] }, { x: 2.7, y: 3.8 })).toBeCloseTo(-0.7, 6);
        expect(landing(room, { ...bank, box: [0, 0, 1, 9, 0.4, 2] }, { x: 3, y: 0.2 }, 0, 'us')).toBeNull();
    });
    it('is carried as a rack within the room', () => {
        expect(carried(room, [{ ...bank, wall: null }], 0.5, 0.25, 'si')).toMatchObject({ by: [0.5, 0.25], corner: [1.5, 0.25] });
        expect(carried(room, [{ ...bank, wall: null }], 50, -50, 'si')).toMatchObject({ by: [3, 0], corner: [4, 0] });
    });
});
