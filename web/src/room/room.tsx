// SPDX-License-Identifier: MIT
// The room, three-dimensional. The picture's code is fetched after the page stands.

import { effect, useSignal } from '@preact/signals';
import type { RefObject } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { lit, openPiece, overPiece } from '../state/focus';
import { go } from '../state/route';
import { dark, units } from '../state/settings';
import { failed, view, working } from '../state/view';
import { markDrawn } from '../state/timing';
import { printLength } from '../units/length';
import { words } from '../words';
import { PieceCard, pieceLine } from './piece';
import { handle, landed, stays } from './handle';
import type { Landing } from './landing';
import { cut, hidden, Tools } from './tools';
import type { Aim, Stage } from './stage';

const text = words.room;

const aims: Aim[] = ['corner', 'front', 'side', 'top', 'heater'];

export function Room() {
    const canvas = useRef<HTMLCanvasElement>(null);
    const frame = useRef<HTMLDivElement>(null);
    const stage = useRef<Stage | null>(null);
    const tip = useSignal<{ x: number; y: number; piece: number } | null>(null);
    const noGl = useSignal(false);
    const ready = useSignal(false);
    /** The view that is kept while the picture changes its shape; none once the reader has turned it. */
    const aimed = useRef<Aim | null>('corner');
    const aim = (to: Aim) => {
        aimed.current = to;
        stage.current?.aim(to);
    };

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
            stops.push(...tie(stage.current, frame.current, aimed), handle(stage.current, drag, ghost, tip));
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
        const view = aims[Number(event.key) - 1];
        if (!view && !acts[event.key]) return;
        if (view) aim(view);
        else acts[event.key]!();
        if (event.key !== 'Escape' && !view) aimed.current = null;
        event.preventDefault();
    };

    const piece = openPiece.value;
    return (
        <div class="room">
            <Tools aim={aim} />
            <div class="stage" ref={frame} data-ready={ready.value || undefined}>
                <canvas ref={canvas} class={view.value ? undefined : 'empty'} tabIndex={0} role="application" aria-label={text.name} onKeyDown={onKey} onPointerLeave={() => ((overPiece.value = null), (tip.value = null))} />
                {noGl.value && <p class="over">{text.noGl}</p>}
                {!noGl.value && <State />}
                {tip.value && (
                    <p class="tip" style={{ left: `${tip.value.x}px`, top: `${tip.value.y}px` }}>
                        {pieceLine(tip.value.piece)}
                    </p>
                )}
                {(landed.value || stays.value) && (
                    <p class="landing" role="status">
                        {landed.value ? where(landed.value) : stays.value}
                    </p>
                )}
                {piece !== null && <PieceCard index={piece} />}
            </div>
        </div>
    );
}

function where({ wall, along, corner }: Landing): string {
    const length = (metres: number) => printLength(metres, units.value);
    return corner ? text.moveRack(length(corner[0]), length(corner[1])) : text.moveTo(wall, length(along));
}

function State() {
    if (failed.value) return <p class="over" role="status">{failed.value}</p>;
    if (!view.value) return <p class="over soft" role="status">{text.noView}</p>;
    if (!view.value.layout) return <p class="over" role="status">{text.noPlant} {view.value.shortfalls[0]?.what ?? view.value.checks.find((check) => check.status === 'fail')?.says}</p>;
    return working.value?.stage === 'wider' ? <p class="corner-note" role="status">{text.reading}</p> : null;
}

/** Ties the picture to what the page knows: every change asks for a frame. */
function tie(stage: Stage, frame: HTMLElement, aimed: RefObject<Aim>): (() => void)[] {
    const failing = () => new Set(view.value?.checks.filter((check) => check.status === 'fail').flatMap((check) => check.pieces) ?? []);
    let shape = 0;
    const fit = () => {
        const [wide, high] = [frame.clientWidth, frame.clientHeight];
        stage.resize(wide, high);
        if (wide < 2 || high < 2) return;
        if (aimed.current && Math.abs(wide / high / shape - 1) > 0.25) stage.aim(aimed.current);
        shape = wide / high;
    };
    const watch = new ResizeObserver(fit);
    watch.observe(frame);
    fit();
    stage.controls.addEventListener('start', () => (aimed.current = null));
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
