// SPDX-License-Identifier: MIT
// The plant's pieces as instanced boxes, rods and knuckles: three draw calls whatever their number.

import * as THREE from 'three';
import { eachBox, eachRod } from '../api/read';
import type { View } from '../api/types';
import type { Palette } from './palette';

const up = new THREE.Vector3(0, 0, 1);

/** A batch of one shape, grown when it must hold more. */
class Batch {
    mesh: THREE.InstancedMesh;
    owner: number[] = [];
    private room = 0;

    constructor(
        private readonly group: THREE.Group,
        private readonly shape: THREE.BufferGeometry,
        private readonly material: THREE.Material,
    ) {
        this.mesh = this.make(1024);
    }

    private make(room: number): THREE.InstancedMesh {
        this.room = room;
        const mesh = new THREE.InstancedMesh(this.shape, this.material, room);
        mesh.frustumCulled = false;
        mesh.instanceColor = new THREE.InstancedBufferAttribute(new Float32Array(room * 3).fill(1), 3);
        this.group.add(mesh);
        return mesh;
    }

    set(matrices: THREE.Matrix4[], owner: number[]): void {
        if (matrices.length > this.room) {
            this.group.remove(this.mesh);
            this.mesh.dispose();
            this.mesh = this.make(Math.ceil(matrices.length * 1.5));
        }
        this.owner = owner;
        this.mesh.count = matrices.length;
        matrices.forEach((matrix, index) => this.mesh.setMatrixAt(index, matrix));
        this.mesh.instanceMatrix.needsUpdate = true;
        this.mesh.boundingSphere = null;
    }

    paint(colour: (piece: number) => THREE.Color): void {
        this.owner.forEach((piece, index) => this.mesh.setColorAt(index, colour(piece)));
        if (this.mesh.instanceColor) this.mesh.instanceColor.needsUpdate = true;
    }
}

export class PlantMeshes {
    readonly group = new THREE.Group();
    readonly material = new THREE.MeshLambertMaterial();
    private readonly boxes: Batch;
    private readonly rods: Batch;
    private readonly knuckles: Batch;
    private readonly edges = new THREE.LineSegments(new THREE.BufferGeometry(), new THREE.LineBasicMaterial());
    private view: View | null = null;

    /** `plain`: fewer faces, where the processor draws. */
    constructor(plain: boolean) {
        const rod = new THREE.CylinderGeometry(1, 1, 1, plain ? 7 : 12, 1, plain);
        rod.rotateX(Math.PI / 2);
        this.boxes = new Batch(this.group, new THREE.BoxGeometry(1, 1, 1), this.material);
        this.rods = new Batch(this.group, rod, this.material);
        this.knuckles = new Batch(this.group, plain ? new THREE.SphereGeometry(1, 7, 4) : new THREE.SphereGeometry(1, 10, 7), this.material);
        this.edges.frustumCulled = false;
        this.group.add(this.edges);
    }

    /** Takes the shapes of a view, without the services hidden. */
    set(view: View, hidden: ReadonlySet<string>): void {
        this.view = view;
        const shows = (piece: number) => !hidden.has(layerOf(view, piece));
        const boxes: THREE.Matrix4[] = [];
        const boxOwner: number[] = [];
        const lines: number[] = [];
        eachBox(view.geometry.boxes, (piece, b) => {
            if (!shows(piece)) return;
            const size = [b[3]! - b[0]!, b[4]! - b[1]!, b[5]! - b[2]!] as const;
            boxes.push(
                new THREE.Matrix4().makeScale(Math.max(size[0], 1e-4), Math.max(size[1], 1e-4), Math.max(size[2], 1e-4)).setPosition(b[0]! + size[0] / 2, b[1]! + size[1] / 2, b[2]! + size[2] / 2),
            );
            boxOwner.push(piece);
            if (size[0] * size[1] * size[2] > 0.004) outline(b, lines);
        });
        this.boxes.set(boxes, boxOwner);

        const rods: THREE.Matrix4[] = [];
        const rodOwner: number[] = [];
        const knuckles: THREE.Matrix4[] = [];
        const knuckleOwner: number[] = [];
        eachRod(view.geometry.rods, (piece, radius, points) => {
            if (!shows(piece)) return;
            for (let i = 1; i < points.length; ++i) {
                rods.push(between(points[i - 1]!, points[i]!, radius));
                rodOwner.push(piece);
                if (i + 1 < points.length) {
                    knuckles.push(new THREE.Matrix4().makeScale(radius, radius, radius).setPosition(...(points[i] as [number, number, number])));
                    knuckleOwner.push(piece);
                }
            }
        });
        this.rods.set(rods, rodOwner);
        this.knuckles.set(knuckles, knuckleOwner);
        this.edges.geometry.dispose();
        this.edges.geometry = new THREE.BufferGeometry().setAttribute('position', new THREE.Float32BufferAttribute(lines, 3));
    }

    paint(palette: Palette, lit: ReadonlySet<number>, failing: ReadonlySet<number>): void {
        const view = this.view;
        if (!view) return;
        const ground = new THREE.Color(palette.ground);
        const accent = new THREE.Color(...palette.accent);
        const fail = new THREE.Color(...palette.fail);
        const inks = new Map<string, [THREE.Color, THREE.Color]>();
        const pair = (layer: string) => {
            let found = inks.get(layer);
            if (!found) {
                const full = new THREE.Color(...(layer === 'heater' ? palette.heater : palette.ink(layer)));
                inks.set(layer, (found = [full, full.clone().lerp(ground, 0.72)]));
            }
            return found;
        };
        const dim = lit.size > 0 ? 1 : 0;
        const colour = (piece: number) => (lit.has(piece) ? accent : !dim && failing.has(piece) ? fail : pair(layerOf(view, piece))[dim]!);
        for (const batch of [this.boxes, this.rods, this.knuckles]) batch.paint(colour);
        (this.edges.material as THREE.LineBasicMaterial).color.setHex(dim ? palette.soft : palette.line);
    }

    /** The piece a ray meets first. */
    pick(ray: THREE.Raycaster): { piece: number; at: THREE.Vector3 } | null {
        const hits = [this.boxes, this.rods].flatMap((batch) => ray.intersectObject(batch.mesh, false).map((hit) => ({ batch, hit })));
        const clip = this.material.clippingPlanes?.[0];
        const seen = hits.filter(({ hit }) => !clip || clip.distanceToPoint(hit.point) >= 0).sort((a, b) => a.hit.distance - b.hit.distance)[0];
        return seen ? { piece: seen.batch.owner[seen.hit.instanceId!]!, at: seen.hit.point } : null;
    }

    cut(plane: THREE.Plane | null): void {
        this.material.clippingPlanes = plane ? [plane] : null;
        (this.edges.material as THREE.LineBasicMaterial).clippingPlanes = plane ? [plane] : null;
    }
}

/** The layer a piece is shown or hidden with: its service, heaters by themselves. */
export function layerOf(view: View, piece: number): string {
    const row = view.pieces[piece];
    return row?.part === 'heater' ? 'heater' : (row?.service ?? 'structure');
}

function between(a: number[], b: number[], radius: number): THREE.Matrix4 {
    const way = new THREE.Vector3(b[0]! - a[0]!, b[1]! - a[1]!, b[2]! - a[2]!);
    const long = way.length();
    const turn = long > 1e-9 ? new THREE.Quaternion().setFromUnitVectors(up, way.clone().divideScalar(long)) : new THREE.Quaternion();
    const middle = new THREE.Vector3((a[0]! + b[0]!) / 2, (a[1]! + b[1]!) / 2, (a[2]! + b[2]!) / 2);
    return new THREE.Matrix4().compose(middle, turn, new THREE.Vector3(radius, radius, Math.max(long, 1e-4)));
}

function outline(b: number[], into: number[]): void {
    const x = [b[0]!, b[3]!];
    const y = [b[1]!, b[4]!];
    const z = [b[2]!, b[5]!];
    for (const i of [0, 1]) {
        for (const j of [0, 1]) {
            into.push(x[0]!, y[i]!, z[j]!, x[1]!, y[i]!, z[j]!);
            into.push(x[i]!, y[0]!, z[j]!, x[i]!, y[1]!, z[j]!);
            into.push(x[i]!, y[j]!, z[0]!, x[i]!, y[j]!, z[1]!);
        }
    }
}
