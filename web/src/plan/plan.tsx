// SPDX-License-Identifier: MIT
// The plan, drawn and edited by hand.

import { signal, useComputed } from '@preact/signals';
import { edit, survey } from '../state/job';
import { units } from '../state/settings';
import { view } from '../state/view';
import { snapLength } from '../units/length';
import { words } from '../words';
import { DrawWalls, drawing as drawingWalls } from './draw';
import { distance, nearest, side, snap, type Point } from './geometry';
import { Measures } from './measures';
import { edits, read, type Drawing } from './model';
import { placeNames } from './names';
import { Clear, connectionName, Dimensions, doorGap, doorPath, Outline, Plant } from './paper';
import { all, anchor, chosen, moved, present, same, type Chosen } from './pick';
import { fit, size, useSize, type Sheet } from './sheet';
import { Additions, removal } from './things';

const text = words.plan;

/** The drawing while something is held; null when it is the survey's. */
const held = signal<{ what: Chosen; start: Drawing; now: Drawing; moved: boolean; offset: Point } | null>(null);

function commit(start: Drawing, next: Drawing): void {
    const changes = edits(start, next, units.value);
    if (changes.length > 0) void edit(changes);
}

let pending: { start: Drawing; next: Drawing; timer: ReturnType<typeof setTimeout> } | null = null;
/** Steps of the arrow keys, gathered into one edit. */
const nudged = signal<Drawing | null>(null);
function nudge(start: Drawing, next: Drawing): void {
    if (pending) clearTimeout(pending.timer);
    const first = pending?.start ?? start;
    nudged.value = next;
    pending = {
        start: first,
        next,
        timer: setTimeout(() => {
            pending = null;
            nudged.value = null;
            commit(first, next);
        }, 350),
    };
}

export function Plan() {
    const frame = useSize();
    const base = useComputed(() => read(survey.value, view.value?.room?.connections));
    const settled = base.value;
    if (drawingWalls.value) return <div class="plan"><DrawWalls old={settled} frame={frame} /></div>;
    const now = held.value?.now ?? nudged.value ?? settled;
    if (!now) return <div class="plan" ref={frame}><p class="quiet-note">{words.proof.loading}</p></div>;
    const sheet = fit((held.value?.start ?? now).corners, size.value);
    return (
        <div class="plan">
            <div class="tools">
                <button type="button" class="tool" onClick={() => (drawingWalls.value = { corners: [], toward: null })}>
                    {text.draw}
                </button>
                <Additions drawing={now} />
            </div>
            <div class="sheet-frame" ref={frame}>
                <Board drawing={now} sheet={sheet} />
            </div>
            <div class="measures">
                <Measures drawing={now} change={(next) => commit(now, next)} />
            </div>
        </div>
    );
}

function Board({ drawing, sheet }: { drawing: Drawing; sheet: Sheet }) {
    const grid = units.value === 'si' ? 0.05 : 0.0254;
    const at = (event: PointerEvent): Point => {
        const box = (event.currentTarget as Element).getBoundingClientRect();
        return sheet.from(event.clientX - box.left, event.clientY - box.top);
    };
    const down = (event: PointerEvent) => {
        const what = under(drawing, at(event), sheet);
        chosen.value = what;
        if (!what) return;
        const a = anchor(drawing, what);
        const p = at(event);
        held.value = { what, start: drawing, now: drawing, moved: false, offset: [a[0] - p[0], a[1] - p[1]] };
        (event.currentTarget as Element).setPointerCapture(event.pointerId);
    };
    const move = (event: PointerEvent) => {
        const hold = held.value;
        if (!hold) return;
        const p = at(event);
        const raw: Point = [p[0] + hold.offset[0], p[1] + hold.offset[1]];
        if (!hold.moved && distance(raw, anchor(hold.start, hold.what)) * sheet.scale < 4) return;
        const others = hold.what.kind === 'corner' ? hold.start.corners.filter((_, i) => i !== hold.what.index) : [];
        const to = hold.what.kind === 'corner' ? snap(raw, others, grid, 7 / sheet.scale) : raw;
        held.value = { ...hold, moved: true, now: moved(hold.start, hold.what, to, (v) => snapLength(v, units.value, grid)) };
    };
    const up = () => {
        const hold = held.value;
        held.value = null;
        if (hold?.moved) commit(hold.start, hold.now);
    };
    const onKey = (event: KeyboardEvent) => {
        if (event.ctrlKey || event.metaKey || event.altKey) return;
        const list = all(drawing);
        const what = present(drawing);
        if (event.key === 'n' || event.key === 'N') {
            const index = list.findIndex((one) => same(one, what));
            chosen.value = list[(index + (event.shiftKey ? list.length - 1 : 1)) % list.length] ?? null;
        } else if (event.key === 'Escape') {
            chosen.value = null;
            held.value = null;
        } else if ((event.key === 'Delete' || event.key === 'Backspace') && what) {
            const gone = removal(drawing, what, units.value);
            if (gone) {
                chosen.value = null;
                void edit(gone);
            }
        } else if (event.key.startsWith('Arrow') && what) {
            const step = (event.shiftKey ? 12 : 1) * (units.value === 'si' ? 0.025 : 0.0254);
            const way = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[event.key] as [number, number];
            const a = anchor(drawing, what);
            nudge(drawing, moved(drawing, what, [a[0] + way[0] * step, a[1] + way[1] * step], (v) => v));
        } else {
            return;
        }
        event.preventDefault();
    };
    const hold = held.value;
    return (
        <svg class="board" width={sheet.width} height={sheet.height} tabindex={0} role="application" aria-label={text.name} onPointerDown={down} onPointerMove={move} onPointerUp={up} onPointerCancel={up} onKeyDown={onKey}>
            <Outline drawing={drawing} sheet={sheet} />
            {view.value && <Plant view={view.value} sheet={sheet} />}
            <Things drawing={drawing} sheet={sheet} />
            <Dimensions drawing={drawing} sheet={sheet} units={units.value} />
            {hold?.moved && <Clear drawing={drawing} at={anchor(drawing, hold.what)} half={halfOf(drawing, hold.what)} sheet={sheet} units={units.value} />}
        </svg>
    );
}

function halfOf(d: Drawing, what: Chosen): Point {
    if (what.kind !== 'obstacle') return [0, 0];
    const { min, max } = d.obstacles[what.index]!;
    return [(max[0]! - min[0]!) / 2, (max[1]! - min[1]!) / 2];
}

/** What lies under the pointer: small things before large ones. */
function under(d: Drawing, p: Point, sheet: Sheet): Chosen | null {
    const reach = 13 / sheet.scale;
    const close = <T,>(list: readonly T[], where: (one: T) => Point) => list.findIndex((one) => distance(where(one), p) < reach);
    const connection = close(d.connections, (one) => [one.at[0]!, one.at[1]!]);
    if (connection >= 0) return { kind: 'connection', index: connection };
    const corner = close(d.corners, (one) => one);
    if (corner >= 0) return { kind: 'corner', index: corner };
    const door = d.doors.findIndex((one) => {
        const near = nearest(d.corners, p);
        return near.wall === one.wall && near.off < reach && near.along > one.offset && near.along < one.offset + one.width;
    });
    if (door >= 0) return { kind: 'door', index: door };
    const obstacle = d.obstacles.findIndex(({ min, max }) => p[0] > min[0]! && p[0] < max[0]! && p[1] > min[1]! && p[1] < max[1]!);
    if (obstacle >= 0) return { kind: 'obstacle', index: obstacle };
    const near = nearest(d.corners, p);
    return near.off < reach ? { kind: 'wall', index: near.wall } : null;
}

function Things({ drawing, sheet }: { drawing: Drawing; sheet: Sheet }) {
    const on = (kind: Chosen['kind'], index: number) => (same(chosen.value, { kind, index } as Chosen) ? ' chosen' : '');
    return (
        <g>
            {drawing.corners.map((_, index) => {
                const s = side(drawing.corners, index);
                const [a, b] = [sheet.to(s.from), sheet.to(s.to)];
                return <path key={`w${index}`} class={`wall${on('wall', index)}`} d={`M${a[0]} ${a[1]}L${b[0]} ${b[1]}`} />;
            })}
            {drawing.obstacles.map((one, index) => {
                const [x, y] = sheet.to([one.min[0]!, one.max[1]!]);
                return (
                    <g key={`o${index}`} class={`obstacle${on('obstacle', index)}`}>
                        <rect x={x} y={y} width={(one.max[0]! - one.min[0]!) * sheet.scale} height={(one.max[1]! - one.min[1]!) * sheet.scale}>
                            <title>{one.name}</title>
                        </rect>
                    </g>
                );
            })}
            {drawing.doors.map((door, index) =>
                door.wall < drawing.corners.length && door.wall >= 0 ? (
                    <g key={`d${index}`} class={`door${on('door', index)}`}>
                        <path class="gap" d={doorGap(drawing, door, sheet)} />
                        <path class="leaf" d={doorPath(drawing, door, sheet)} />
                    </g>
                ) : null,
            )}
            {drawing.corners.map((p, index) => {
                const [x, y] = sheet.to(p);
                return <rect key={`c${index}`} class={`corner${on('corner', index)}`} x={x - 4} y={y - 4} width="8" height="8" />;
            })}
            <Connections drawing={drawing} sheet={sheet} on={on} />
        </g>
    );
}

function Connections({ drawing, sheet, on }: { drawing: Drawing; sheet: Sheet; on: (kind: Chosen['kind'], index: number) => string }) {
    const rings = drawing.connections.map((one) => {
        const at: Point = [one.at[0]!, one.at[1]!];
        const [x, y] = sheet.to(at);
        return { x, y, text: connectionName(one.name), onWall: nearest(drawing.corners, at).off < 0.05 };
    });
    const names = placeNames(rings, sheet.width);
    return (
        <>
            {drawing.connections.map((one, index) => {
                const { x, y } = rings[index]!;
                const name = names[index]!;
                return (
                    <g key={one.name} class={`connection ${one.name}${one.given ? '' : ' assumed'}${on('connection', index)}`}>
                        <circle cx={x} cy={y} r="5.5" />
                        <text x={name.x} y={name.y} text-anchor={name.anchor}>
                            {name.text}
                        </text>
                    </g>
                );
            })}
        </>
    );
}
