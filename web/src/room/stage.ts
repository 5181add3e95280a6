// SPDX-License-Identifier: MIT
// The picture: camera, light, plant and room. Draws only when something changed.

import * as THREE from 'three';
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js';
import type { View } from '../api/types';
import { arrange, labels } from './labels';
import { palette, type Palette } from './palette';
import { PlantMeshes } from './plant';
import { shell } from './shell';

export type Aim = 'corner' | 'front' | 'side' | 'top' | 'heater';
export interface Cut {
    axis: 'off' | 'x' | 'y' | 'z';
    share: number;
}

export class Stage {
    readonly camera = new THREE.PerspectiveCamera(38, 1, 0.05, 400);
    readonly controls: OrbitControls;
    readonly scene = new THREE.Scene();
    /** Called when the picture is that of the view: after each frame, or at once where none is wanted. */
    drawn: (() => void) | null = null;
    /** Drawn by the processor: fewer dots and faces, so that turning stays bearable. */
    private readonly slow = drawnByProcessor();
    private readonly renderer: THREE.WebGLRenderer;
    private readonly plant = new PlantMeshes(this.slow);
    private room = new THREE.Group();
    private names = new THREE.Group();
    private colours: Palette = palette(false);
    private view: View | null = null;
    private waiting = 0;
    private framed = '';
    private hidden: ReadonlySet<string> | null = null;
    private dark = false;
    /** Pieces lit and failing as painted; null where the plant is to be painted anew. */
    private lit: ReadonlySet<number> | null = null;
    private failing: ReadonlySet<number> = new Set();

    constructor(readonly canvas: HTMLCanvasElement) {
        this.renderer = new THREE.WebGLRenderer({ canvas, antialias: !this.slow, powerPreference: 'high-performance' });
        this.renderer.localClippingEnabled = true;
        this.camera.up.set(0, 0, 1);
        this.controls = new OrbitControls(this.camera, canvas);
        this.controls.enableDamping = false;
        this.controls.maxPolarAngle = Math.PI * 0.52;
        this.controls.addEventListener('change', () => this.draw());
        const sky = new THREE.HemisphereLight(0xffffff, 0x8d8678, 2.1);
        sky.position.set(0, 0, 1);
        const sun = new THREE.DirectionalLight(0xffffff, 1.5);
        sun.position.set(-3, -5, 8);
        this.scene.add(sky, sun, this.plant.group, this.room, this.names);
    }

    /** Asks for one frame. */
    draw(): void {
        this.waiting ||= requestAnimationFrame(() => this.drawNow());
    }

    drawNow(): void {
        if (this.waiting) cancelAnimationFrame(this.waiting);
        this.waiting = 0;
        this.camera.updateMatrixWorld();
        arrange(this.names, this.camera);
        this.renderer.render(this.scene, this.camera);
        this.drawn?.();
    }

    resize(width: number, height: number): void {
        if (width < 2 || height < 2) return;
        this.renderer.setPixelRatio(this.slow ? Math.min(1, devicePixelRatio) : Math.min(2, devicePixelRatio));
        this.renderer.setSize(width, height, false);
        this.camera.aspect = width / height;
        this.camera.updateProjectionMatrix();
        this.draw();
    }

    /** Takes a view. Most edits move nothing: then nothing is made again. */
    show(view: View, hidden: ReadonlySet<string>, dark: boolean): void {
        const was = this.view;
        this.view = view;
        const looks = was !== null && hidden === this.hidden && dark === this.dark;
        if (looks && was.geometry === view.geometry && was.pieces === view.pieces && was.room === view.room) return;
        this.hidden = hidden;
        this.colours = palette(dark);
        this.scene.background = new THREE.Color(this.colours.ground);
        this.plant.set(view, hidden);
        if (was?.room !== view.room || dark !== this.dark) {
            this.scene.remove(this.room);
            drop(this.room);
            this.room = view.room ? shell(view.room, this.colours) : new THREE.Group();
            this.scene.add(this.room);
        }
        this.dark = dark;
        this.scene.remove(this.names);
        this.names = labels(view, dark ? '#d7dde3' : '#22262b', !hidden.has('heater'));
        this.scene.add(this.names);
        const room = JSON.stringify(view.room?.plan ?? null);
        if (room !== this.framed) {
            this.framed = room;
            this.aim('corner');
        }
        this.lit = null;
    }

    light(lit: ReadonlySet<number>, failing: ReadonlySet<number>): void {
        if (this.lit && alike(lit, this.lit) && alike(failing, this.failing)) {
            if (!this.waiting) this.drawn?.();
            return;
        }
        this.lit = lit;
        this.failing = failing;
        this.plant.paint(this.colours, lit, failing);
        this.draw();
    }

    cut({ axis, share }: Cut): void {
        const bounds = this.bounds();
        const normal = axis === 'x' ? [-1, 0, 0] : axis === 'y' ? [0, 1, 0] : [0, 0, -1];
        const low = axis === 'x' ? bounds.min.x : axis === 'y' ? bounds.min.y : bounds.min.z;
        const high = axis === 'x' ? bounds.max.x : axis === 'y' ? bounds.max.y : bounds.max.z;
        const at = low + (high - low) * share;
        const plane = new THREE.Plane(new THREE.Vector3(...normal), axis === 'y' ? -at : at);
        this.plant.cut(axis === 'off' ? null : plane);
        this.draw();
    }

    bounds(): THREE.Box3 {
        const box = new THREE.Box3();
        for (const [x, y] of this.view?.room?.plan ?? []) box.expandByPoint(new THREE.Vector3(x, y, 0));
        if (box.isEmpty()) box.set(new THREE.Vector3(0, 0, 0), new THREE.Vector3(4, 3, 1));
        box.expandByPoint(new THREE.Vector3(box.min.x, box.min.y, this.view?.room?.ceiling ?? 2.5));
        return box;
    }

    /** Sets the camera; the plant's open side is looked at where there is one. */
    aim(aim: Aim): void {
        const room = this.bounds();
        const middle = room.getCenter(new THREE.Vector3());
        const bank = this.view?.layout?.banks[0]?.box;
        const plant = bank
            ? new THREE.Vector3((bank[0]! + bank[3]!) / 2, (bank[1]! + bank[4]!) / 2, (bank[2]! + bank[5]!) / 2)
            : middle;
        const out = new THREE.Vector3(middle.x - plant.x, middle.y - plant.y, 0);
        // square to the bank: its short side tells which way it looks
        const alongX = bank ? bank[3]! - bank[0]! >= bank[4]! - bank[1]! : true;
        const face = alongX ? new THREE.Vector3(0, out.y > 0.05 ? 1 : -1, 0) : new THREE.Vector3(out.x > 0.05 ? 1 : -1, 0, 0);
        const side = new THREE.Vector3(-face.y, face.x, 0);
        const size = room.getSize(new THREE.Vector3());
        const radius = size.length() / 2;
        const away = radius / Math.sin((Math.min(38, 38 * this.camera.aspect) * Math.PI) / 360);
        const ways: { [aim in Aim]: THREE.Vector3 } = {
            corner: face.clone().multiplyScalar(0.9).add(side.clone().multiplyScalar(-0.62)).add(new THREE.Vector3(0, 0, 0.62)),
            front: face.clone().add(new THREE.Vector3(0, 0, 0.02)),
            side: side.clone().add(new THREE.Vector3(0, 0, 0.02)),
            top: new THREE.Vector3(0, -0.001, 1),
            heater: face.clone().add(side.clone().multiplyScalar(-0.25)).add(new THREE.Vector3(0, 0, 0.12)),
        };
        const near = aim === 'heater';
        const target = near ? plant : middle.clone().setZ(size.z * 0.45);
        const way = ways[aim].normalize();
        this.controls.target.copy(target);
        this.camera.position.copy(target).addScaledVector(way, near ? Math.min(away * 0.5, 4.2) : away);
        this.controls.update();
        if (!near) this.fit(room, way);
        this.draw();
    }

    /** As near as shows the whole box. */
    private fit(box: THREE.Box3, way: THREE.Vector3): void {
        const corners = [0, 1, 2, 3, 4, 5, 6, 7].map(
            (n) => new THREE.Vector3(n & 1 ? box.max.x : box.min.x, n & 2 ? box.max.y : box.min.y, n & 4 ? box.max.z : box.min.z),
        );
        let near = 0.5;
        let far = 400;
        for (let turn = 0; turn < 24; ++turn) {
            const middle = (near + far) / 2;
            this.camera.position.copy(this.controls.target).addScaledVector(way, middle);
            this.camera.updateMatrixWorld();
            const fits = corners.every((corner) => {
                const seen = corner.clone().project(this.camera);
                return Math.abs(seen.x) < 0.93 && Math.abs(seen.y) < 0.93 && seen.z < 1;
            });
            if (fits) far = middle;
            else near = middle;
        }
        this.camera.position.copy(this.controls.target).addScaledVector(way, far);
        this.controls.update();
    }

    turn(sideways: number, upward: number): void {
        const offset = this.camera.position.clone().sub(this.controls.target);
        const ball = new THREE.Spherical().setFromVector3(new THREE.Vector3(offset.x, offset.z, -offset.y));
        ball.theta += sideways;
        ball.phi = Math.min(Math.PI * 0.52, Math.max(0.01, ball.phi - upward));
        const back = new THREE.Vector3().setFromSpherical(ball);
        this.camera.position.copy(this.controls.target).add(new THREE.Vector3(back.x, -back.z, back.y));
        this.controls.update();
        this.draw();
    }

    nearer(by: number): void {
        this.camera.position.sub(this.controls.target).multiplyScalar(by).add(this.controls.target);
        this.controls.update();
        this.draw();
    }

    ray(x: number, y: number): THREE.Raycaster {
        const box = this.canvas.getBoundingClientRect();
        const caster = new THREE.Raycaster();
        const at = new THREE.Vector2(((x - box.left) / box.width) * 2 - 1, 1 - ((y - box.top) / box.height) * 2);
        this.camera.updateMatrixWorld();
        caster.setFromCamera(at, this.camera);
        return caster;
    }

    pick(x: number, y: number): { piece: number; at: THREE.Vector3 } | null {
        return this.plant.pick(this.ray(x, y));
    }

    dispose(): void {
        if (this.waiting) cancelAnimationFrame(this.waiting);
        this.controls.dispose();
        this.renderer.dispose();
    }
}

const alike = (a: ReadonlySet<number>, b: ReadonlySet<number>): boolean => a === b || (a.size === b.size && [...a].every((one) => b.has(one)));

function drawnByProcessor(): boolean {
    const probe = document.createElement('canvas').getContext('webgl2', { failIfMajorPerformanceCaveat: true });
    probe?.getExtension('WEBGL_lose_context')?.loseContext();
    return probe === null;
}

function drop(group: THREE.Group): void {
    group.traverse((one) => {
        if (one instanceof THREE.Mesh || one instanceof THREE.LineSegments) one.geometry.dispose();
    });
}
