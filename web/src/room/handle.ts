// SPDX-License-Identifier: MIT
// The pointer in the room: hover tells, click opens, and with moving on the plant is taken along the walls.

import { signal } from '@preact/signals';
import type * as THREE from 'three';
import { Refused, send, within } from '../api/client';
import { readView } from '../api/read';
import type { Edit, View } from '../api/types';
import { overPiece } from '../state/focus';
import { edit, job } from '../state/job';
import { go } from '../state/route';
import { units } from '../state/settings';
import { view } from '../state/view';
import { words } from '../words';
import type { Ghost } from './drag';
import { carried, gripOf, inLine, landing, type Landing } from './landing';
import { onWall, rackMoved } from './place';
import { canPlace } from './placing';
import type { Stage } from './stage';
import { moving } from './tools';

/** Where the plant in hand would land; it stays until the answer has come. */
export const landed = signal<Landing | null>(null);
/** Why it stays where it was. */
export const stays = signal<string | null>(null);

export type Tip = { value: { x: number; y: number; piece: number } | null };

interface Held {
    bank: number;
    plane: THREE.Plane;
    from: { x: number; y: number };
    x: number;
    y: number;
}

export function handle(stage: Stage, drag: typeof import('./drag'), ghost: Ghost, tip: Tip): () => void {
    const canvas = stage.canvas;
    let pressed: { x: number; y: number } | null = null;
    let held: Held | null = null;
    let waiting = 0;

    const show = (at: Landing | null) => {
        landed.value = at;
        ghost.show(at);
        stage.draw();
    };
    const move = (event: PointerEvent) => {
        if (held) return carry(event, held);
        if (event.buttons !== 0 || waiting) return;
        waiting = requestAnimationFrame(() => {
            waiting = 0;
            const hit = stage.pick(event.clientX, event.clientY);
            overPiece.value = hit?.piece ?? null;
            const box = canvas.getBoundingClientRect();
            tip.value = hit ? { x: Math.min(event.clientX - box.left, box.width - 180), y: event.clientY - box.top, piece: hit.piece } : null;
        });
    };
    const carry = (event: PointerEvent, hand: Held) => {
        if (Math.hypot(event.clientX - hand.x, event.clientY - hand.y) < 4 && !landed.value) return;
        const at = drag.meets(stage.ray(event.clientX, event.clientY).ray, hand.plane);
        show(view.value && at ? landingAt(view.value, hand, at) : null);
    };
    const down = (event: PointerEvent) => {
        pressed = { x: event.clientX, y: event.clientY };
        tip.value = null;
        stays.value = null;
        const hit = moving.value && canPlace() && event.button === 0 ? stage.pick(event.clientX, event.clientY) : null;
        const row = hit ? view.value?.pieces[hit.piece] : null;
        if (!hit || !row || (row.part !== 'heater' && !row.bank)) return;
        held = {
            bank: row.bank || 1, plane: drag.held(hit.at, stage.ray(event.clientX, event.clientY).ray), from: { x: hit.at.x, y: hit.at.y },
            x: event.clientX, y: event.clientY,
        };
        stage.controls.enabled = false;
        canvas.setPointerCapture(event.pointerId);
        event.stopImmediatePropagation();
    };
    const letGo = () => {
        held = null;
        stage.controls.enabled = true;
    };
    const up = (event: PointerEvent) => {
        const still = pressed && Math.hypot(event.clientX - pressed.x, event.clientY - pressed.y) < 4;
        pressed = null;
        const at = held ? landed.value : null;
        letGo();
        if (at) {
            void land(at).then(() => landed.value === at && show(null));
        } else if (still) {
            const hit = stage.pick(event.clientX, event.clientY);
            const id = hit ? view.value?.pieces[hit.piece]?.id : null;
            go(id ? { piece: id } : {});
        }
    };
    const giveUp = () => {
        if (!held) return;
        letGo();
        show(null);
    };
    const key = (event: KeyboardEvent) => {
        if (event.key !== 'Escape' || !held) return;
        giveUp();
        event.stopImmediatePropagation();
    };
    canvas.addEventListener('pointermove', move);
    canvas.addEventListener('pointerdown', down, { capture: true });
    canvas.addEventListener('pointerup', up);
    canvas.addEventListener('pointercancel', giveUp);
    addEventListener('keydown', key, { capture: true });
    return () => {
        canvas.removeEventListener('pointermove', move);
        canvas.removeEventListener('pointerdown', down, { capture: true });
        canvas.removeEventListener('pointerup', up);
        canvas.removeEventListener('pointercancel', giveUp);
        removeEventListener('keydown', key, { capture: true });
        landed.value = null;
    };
}

/** A wall plant goes along the walls, a rack freely. */
function landingAt(now: View, held: Held, at: { x: number; y: number }): Landing | null {
    const { layout, room: around } = now;
    const bank = layout?.banks.find((one) => one.number === held.bank) ?? layout?.banks[0];
    if (!layout || !around || !bank) return null;
    if (layout.arrangement.startsWith('rack')) {
        const found = carried(around, layout.banks, at.x - held.from.x, at.y - held.from.y, units.value);
        const name = rackMoved(layout.id, ...found.by);
        return name ? { ...found, name } : null;
    }
    const line = inLine(layout.banks.filter((one) => one.wall === bank.wall), bank);
    const found = landing(around, line, at, gripOf(around, line, held.from), units.value);
    return found && { ...found, name: onWall(layout.id, held.bank, found.wall, found.along) };
}

/** Kept where a plant stands there; otherwise nothing changes, and why is said. */
async function land(at: Landing): Promise<void> {
    const present = job.value;
    if (!present || !at.name) return;
    const edits: Edit[] = [{ path: ['preferences', 'place'], value: at.name }];
    try {
        const answer = await send<any>('POST', within(present.id, `/try?units=${units.value}`), { revision: present.revision, edits });
        const there = readView(answer.view);
        if (!there.layout) {
            const why = there.shortfalls[0]?.what ?? there.checks.find((check) => check.status === 'fail')?.says ?? '';
            stays.value = words.room.moveNot(why.replace(`, '${at.name}'`, '')); // the outline showed where
            return;
        }
    } catch (error) {
        if (error instanceof Refused && error.status !== 409) {
            stays.value = words.room.moveNot(error.message);
            return;
        }
        // away, or changed meanwhile: the edit waits its turn like any other
    }
    await edit(edits);
}
