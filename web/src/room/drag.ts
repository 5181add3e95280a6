// SPDX-License-Identifier: MIT
// The outline of a plant that is held, where it would land.

import * as THREE from 'three';
import type { Landing } from './landing';

/** The plane a held point moves in: level, or where that would be seen edge-on, upright and facing the reader. */
export function held(at: THREE.Vector3, ray: THREE.Ray): THREE.Plane {
    const steep = Math.abs(ray.direction.z) > 0.25;
    const normal = steep ? new THREE.Vector3(0, 0, 1) : ray.direction.clone().setZ(0).normalize();
    return new THREE.Plane().setFromNormalAndCoplanarPoint(normal, at);
}

/** Where a ray meets the plane; null where it looks away from it. */
export const meets = (ray: THREE.Ray, plane: THREE.Plane): THREE.Vector3 | null => ray.intersectPlane(plane, new THREE.Vector3());

/** The outline held over the room while dragging. */
export class Ghost {
    readonly lines = new THREE.LineSegments(
        new THREE.EdgesGeometry(new THREE.BoxGeometry(1, 1, 1)),
        new THREE.LineBasicMaterial({ color: 0xf08a00, depthTest: false }),
    );

    constructor() {
        this.lines.visible = false;
        this.lines.renderOrder = 5;
    }

    show(at: Landing | null): void {
        this.lines.visible = at !== null;
        if (!at) return;
        const { centre, long, deep, turn, low, high } = at.box;
        this.lines.position.set(centre[0], centre[1], (low + high) / 2);
        this.lines.rotation.z = turn;
        this.lines.scale.set(long, deep, Math.max(0.1, high - low));
    }
}
