// SPDX-License-Identifier: MIT
import * as THREE from 'three';
import { describe, expect, it } from 'vitest';
import { arrange } from '../src/room/labels';

const camera = new THREE.PerspectiveCamera(38, 0.6, 0.05, 400);
camera.position.set(0, 0, 10);
camera.updateMatrixWorld();
const half = 10 * Math.tan((19 * Math.PI) / 180) * 0.6; // of the picture's width, where the names stand

function name(x: number, y = 0): THREE.Sprite {
    const sprite = new THREE.Sprite();
    sprite.scale.set(0.1, 0.02, 1);
    sprite.position.set(x, y, 0);
    sprite.userData.moves = true;
    return sprite;
}
/** Where its left and right end stand in the picture, from -1 to 1. */
function ends(sprite: THREE.Sprite): [number, number] {
    const at = sprite.position.clone().project(camera).x;
    const wide = sprite.scale.x * camera.projectionMatrix.elements[0]!;
    return [at - sprite.center.x * wide, at + (1 - sprite.center.x) * wide];
}
const arranged = (...all: THREE.Sprite[]) => arrange(new THREE.Group().add(...all), camera);

describe('names in the picture', () => {
    it('are moved in from its sides, and stay where they find room', () => {
        const [left, middle, right, away] = [name(-0.98 * half), name(0, 1), name(0.98 * half, -1), name(-2 * half, 2)];
        arranged(left, middle, right, away);
        expect(ends(left)[0]).toBeCloseTo(-1, 6);
        expect(ends(right)[1]).toBeCloseTo(1, 6);
        expect(middle.center.x).toBe(0.5);
        expect(away.center.x).toBe(0.5);
    });
    it('do not lie on one another there', () => {
        const [one, other] = [name(-0.98 * half), name(-0.8 * half)];
        arranged(one, other);
        expect(one.center.y).not.toBe(other.center.y);
    });
});
