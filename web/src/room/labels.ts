// SPDX-License-Identifier: MIT
// Numbers of heaters and names of connections, always facing the reader.

import * as THREE from 'three';
import type { View } from '../api/types';
import { eachBox } from '../api/read';
import { words } from '../words';

const drawn = new Map<string, THREE.CanvasTexture>();

function texture(text: string, ink: string): THREE.CanvasTexture {
    const key = `${ink} ${text}`;
    const found = drawn.get(key);
    if (found) return found;
    const canvas = document.createElement('canvas');
    const pen = canvas.getContext('2d')!;
    const font = '600 44px "Noto Sans", "Liberation Sans", Arial, sans-serif';
    pen.font = font;
    canvas.width = Math.ceil(pen.measureText(text).width) + 12;
    canvas.height = 56;
    pen.font = font;
    pen.fillStyle = ink;
    pen.textBaseline = 'middle';
    pen.fillText(text, 6, 29);
    const made = new THREE.CanvasTexture(canvas);
    made.colorSpace = THREE.SRGBColorSpace;
    drawn.set(key, made);
    return made;
}

function label(text: string, at: number[], height: number, ink: string): THREE.Sprite {
    const map = texture(text, ink);
    const sprite = new THREE.Sprite(new THREE.SpriteMaterial({ map, depthWrite: false, depthTest: false, transparent: true, sizeAttenuation: false }));
    const image = map.image as HTMLCanvasElement;
    sprite.scale.set((height * image.width) / image.height, height, 1);
    sprite.position.set(at[0]!, at[1]!, at[2]!);
    sprite.raycast = () => {};
    return sprite;
}

export function labels(view: View, ink: string, heaters: boolean): THREE.Group {
    const group = new THREE.Group();
    if (heaters) {
        eachBox(view.geometry.boxes, (piece, b) => {
            const row = view.pieces[piece];
            if (row?.part !== 'heater') return;
            group.add(label(String(row.heater), [(b[0]! + b[3]!) / 2, (b[1]! + b[4]!) / 2, (b[2]! + b[5]!) / 2], 0.024, ink));
        });
    }
    for (const one of view.room?.connections ?? []) {
        const [x, y, z] = one.at;
        const name = label(words.given.connections[one.name] ?? one.name, [x!, y!, Math.max(0.1, z! + 0.14)], 0.021, ink);
        name.userData.moves = true;
        group.add(name);
    }
    return group;
}

const lines = [0, 1, -1, 2, -2, 3];

/** Moves names that lie on one another up or down by lines, and into the picture those that would run out of its sides; a number that lies on a name or another number is left out. */
export function arrange(group: THREE.Group, camera: THREE.PerspectiveCamera): void {
    const wide = camera.projectionMatrix.elements[0]!;
    const high = camera.projectionMatrix.elements[5]!;
    const taken: { x: number; y: number; w: number; h: number }[] = [];
    const free = (x: number, y: number, w: number, h: number) => taken.every((one) => Math.abs(one.x - x) > (one.w + w) / 2 || Math.abs(one.y - y) > (one.h + h) / 2);
    const at = new THREE.Vector3();
    for (const sprite of [...group.children].reverse() as THREE.Sprite[]) {
        at.copy(sprite.position).project(camera);
        const [w, h] = [sprite.scale.x * wide, sprite.scale.y * high];
        const within = sprite.userData.moves && Math.abs(at.x) < 1 && w < 2;
        const x = within ? Math.max(w / 2 - 1, Math.min(1 - w / 2, at.x)) : at.x;
        const line = (sprite.userData.moves ? lines : [0]).find((n) => free(x, at.y + n * h, w, h));
        sprite.visible = line !== undefined;
        if (line === undefined) continue;
        sprite.center.set(0.5 - (x - at.x) / w, 0.5 - line);
        taken.push({ x, y: at.y + line * h, w, h });
    }
}
