// SPDX-License-Identifier: MIT
// The room, three-dimensional. The picture's code is fetched after the page stands.

import { effect, signal, useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { View } from '../api/types';
import { edit } from '../state/job';
import { lit, openPiece, overPiece } from '../state/focus';
import { go } from '../state/route';
import { dark, units } from '../state/settings';
import { failed, view, working } from '../state/view';
import { markDrawn } from '../state/timing';
import { printLength } from '../units/length';
import { words } from '../words';
import { PieceCard, pieceLine } from './piece';
import { cut, hidden, moving, Tools } from './tools';
import { canPlace } from './placing';
import type { Aim, Stage } from './stage';
import type { Ghost } from './drag';
import { carried, landing, type Landing } from './landing';
import { onWall, rackMoved } from './place';

const text = words.room;
const landed = signal<Landing | null>(null);

const aims: Aim[] = ['corner', 'front', 'side', 'top', 'heater'];

export function Room() {
    const canvas = useRef<HTMLCanvasElement>(null);
    const frame = useRef<HTMLDivElement>(null);
    const stage = useRef<Stage | null>(null);
    const tip = useSignal<{ x: number; y: number; piece: number } | null>(null);
    const noGl = useSignal(false);
    const ready = useSignal(false);

    useEffect(() => {
        const stops: (() => void)[] = [];
        let gone = false;
        void Promise.all([import('./stage'), import('./drag')]).then(([{ Stage }, drag]) => {
            if (gone || !canvas.current || !frame.current) return;
            try {
                stage.current = new Stage(canvas.current);
            } catch {
                noGl.value = true;
                return;
            }
            ready.value = true;
            const ghost = new drag.Ghost();
            stage.current.scene.add(ghost.lines);
            stops.push(...tie(stage.current, frame.current), handle(stage.current, drag, ghost, tip));
        });
        return () => {
            gone = true;
            stops.forEach((stop) => stop());
            stage.current?.dispose();
            stage.current = null;
        };
    }, []);

    const onKey = (event: KeyboardEvent) => {
        const now = stage.current;
        if (!now || event.ctrlKey || event.altKey || event.metaKey) return;
        const step = 0.12;
        const acts: { [key: string]: () => void } = {
            ArrowLeft: () => now.turn(-step, 0), ArrowRight: () => now.turn(step, 0), ArrowUp: () => now.turn(0, step), ArrowDown: () => now.turn(0, -step),
            '+': () => now.nearer(0.88), '=': () => now.nearer(0.88), '-': () => now.nearer(1.14), Escape: () => go({}),
        };
        const act = acts[event.key] ?? (aims[Number(event.key) - 1] ? () => now.aim(aims[Number(event.key) - 1]!) : null);
        if (!act) return;
        act();
        event.preventDefault();
    };

    const piece = openPiece.value;
    return (
        <div class="room">
            <Tools aim={(aim) => stage.current?.aim(aim)} />
            <div class="stage" ref={frame} data-ready={ready.value || undefined}>
                <canvas ref={canvas} tabIndex={0} role="application" aria-label={text.name} onKeyDown={onKey} onPointerLeave={() => ((overPiece.value = null), (tip.value = null))} />
                {noGl.value && <p class="over">{text.noGl}</p>}
                {!noGl.value && <State />}
                {tip.value && (
                    <p class="tip" style={{ left: `${tip.value.x}px`, top: `${tip.value.y}px` }}>
                        {pieceLine(tip.value.piece)}
                    </p>
                )}
                {landed.value?.wall ? <p class="landing">{text.moveTo(landed.value.wall, printLength(landed.value.along, units.value))}</p> : null}
                {piece !== null && <PieceCard index={piece} />}
            </div>
        </div>
    );
}

function State() {
    if (failed.value) return <p class="over" role="status">{failed.value}</p>;
    if (!view.value) return <p class="over soft" role="status">{text.noView}</p>;
    if (!view.value.layout) return <p class="over" role="status">{text.noPlant} {view.value.shortfalls[0]?.what}</p>;
    return working.value ? <p class="corner-note" role="status">{text.reading}</p> : null;
}

/** Ties the picture to what the page knows: every change asks for a frame. */
function tie(stage: Stage, frame: HTMLElement): (() => void)[] {
    const failing = () => new Set(view.value?.checks.filter((check) => check.status === 'fail').flatMap((check) => check.pieces) ?? []);
    const watch = new ResizeObserver(() => stage.resize(frame.clientWidth, frame.clientHeight));
    watch.observe(frame);
    stage.resize(frame.clientWidth, frame.clientHeight);
    stage.drawn = () => markDrawn(view.value?.revision);
    return [
        () => watch.disconnect(),
        effect(() => {
            const now = view.value;
            if (!now) return;
            stage.show(now, hidden.value, dark.value);
            stage.light(lit.peek(), failing());
        }),
        effect(() => {
            const now = lit.value;
            if (view.peek()) stage.light(now, failing());
        }),
        effect(() => {
            stage.cut(cut.value);
        }),
    ];
}

type Tip = { value: { x: number; y: number; piece: number } | null };

/** Pointer: hover tells, click opens, and with moving on a heater is taken along the walls. */
function handle(stage: Stage, drag: typeof import('./drag'), ghost: Ghost, tip: Tip): () => void {
    const canvas = stage.canvas;
    let pressed: { x: number; y: number } | null = null;
    let held: { bank: number; level: number; from: { x: number; y: number } } | null = null;
    let waiting = 0;

    const move = (event: PointerEvent) => {
        if (held) return carry(event);
        if (event.buttons !== 0 || waiting) return;
        waiting = requestAnimationFrame(() => {
            waiting = 0;
            const hit = stage.pick(event.clientX, event.clientY);
            overPiece.value = hit?.piece ?? null;
            const box = canvas.getBoundingClientRect();
            tip.value = hit ? { x: Math.min(event.clientX - box.left, box.width - 180), y: event.clientY - box.top, piece: hit.piece } : null;
        });
    };
    const carry = (event: PointerEvent) => {
        const now = view.value;
        const at = drag.onLevel(stage.ray(event.clientX, event.clientY).ray, held!.level);
        landed.value = now && at ? landingAt(now, held!, at) : null;
        ghost.show(landed.value);
        stage.draw();
    };
    const down = (event: PointerEvent) => {
        pressed = { x: event.clientX, y: event.clientY };
        tip.value = null;
        const hit = moving.value && canPlace() ? stage.pick(event.clientX, event.clientY) : null;
        const row = hit ? view.value?.pieces[hit.piece] : null;
        if (!hit || row?.part !== 'heater') return;
        held = { bank: row.bank || 1, level: hit.at.z, from: { x: hit.at.x, y: hit.at.y } };
        stage.controls.enabled = false;
        canvas.setPointerCapture(event.pointerId);
        event.stopImmediatePropagation();
    };
    const upFrom = (event: PointerEvent) => {
        const still = pressed && Math.hypot(event.clientX - pressed.x, event.clientY - pressed.y) < 4;
        pressed = null;
        if (held) {
            const at = landed.value;
            held = null;
            landed.value = null;
            ghost.show(null);
            stage.controls.enabled = true;
            stage.draw();
            if (at && !still) land(at);
        } else if (still) {
            const hit = stage.pick(event.clientX, event.clientY);
            const id = hit ? view.value?.pieces[hit.piece]?.id : null;
            go(id ? { piece: id } : {});
        }
    };
    canvas.addEventListener('pointermove', move);
    canvas.addEventListener('pointerdown', down, { capture: true });
    canvas.addEventListener('pointerup', upFrom);
    return () => {
        canvas.removeEventListener('pointermove', move);
        canvas.removeEventListener('pointerdown', down, { capture: true });
        canvas.removeEventListener('pointerup', upFrom);
    };
}

/** A wall plant goes along the walls, a rack freely. */
function landingAt(now: View, held: { bank: number; from: { x: number; y: number } }, at: { x: number; y: number }): Landing | null {
    const { layout, room: around } = now;
    const bank = layout?.banks.find((one) => one.number === held.bank) ?? layout?.banks[0];
    if (!layout || !around || !bank) return null;
    if (layout.arrangement.startsWith('rack')) {
        const found = carried(around, layout.banks, at.x - held.from.x, at.y - held.from.y, units.value);
        const name = rackMoved(layout.id, ...found.by);
        if (name) return { ...found, name };
    }
    const found = landing(around, bank, at, units.value);
    return found && { ...found, name: onWall(layout.id, held.bank, found.wall, found.along) };
}

function land(at: Landing): void {
    if (at.name) void edit([{ path: ['preferences', 'place'], value: at.name }]);
}
