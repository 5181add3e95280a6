// SPDX-License-Identifier: MIT
// New walls drawn by hand: corner by corner with the pointer, or side by side with typed lengths and a direction.

import { signal, useSignal } from '@preact/signals';
import { edit, survey } from '../state/job';
import { units } from '../state/settings';
import { printLength, readLength } from '../units/length';
import { words } from '../words';
import { crosses, distance, snap, square, type Point } from './geometry';
import { redraw, type Drawing } from './model';
import { fit, size } from './sheet';

const text = words.plan;

export const drawing = signal<{ corners: Point[]; toward: Point | null } | null>(null);

const arrows: [string, Point][] = [['←', [-1, 0]], ['→', [1, 0]], ['↑', [0, 1]], ['↓', [0, -1]]];
const named: { [arrow: string]: string } = { '←': 'left', '→': 'right', '↑': 'up', '↓': 'down' };

export function DrawWalls({ old, frame }: { old: Drawing | null; frame: (element: HTMLDivElement | null) => void }) {
    const typed = useSignal('');
    const wrong = useSignal('');
    const state = drawing.value!;
    // the sheet stays put while corners are set: it shows the old room and some ground around it
    const ground: Point[] = old && old.corners.length > 0 ? old.corners : [[0, 0], [6, 4.5]];
    const drawn = state.corners;
    const sheet = fit([...ground, ...drawn], size.value, 70);
    const grid = units.value === 'si' ? 0.05 : 0.0254 * 3;

    const set = (corners: Point[]) => (drawing.value = { corners, toward: null });
    const finish = (corners = drawn) => {
        if (corners.length < 3) return void (wrong.value = text.tooFew);
        if (crosses(corners)) return void (wrong.value = text.crosses);
        drawing.value = null;
        const plain: Drawing = old ?? { corners, doors: [], obstacles: [], connections: [] };
        void edit(redraw(survey.value, plain, corners, units.value));
    };
    const add = (p: Point) => {
        wrong.value = '';
        set([...drawn, p]);
    };
    const place = (event: PointerEvent): Point => {
        const box = (event.currentTarget as Element).getBoundingClientRect();
        const raw = sheet.from(event.clientX - box.left, event.clientY - box.top);
        const last = drawn.at(-1);
        return snap(last ? square(last, raw) : raw, drawn, grid, 8 / sheet.scale);
    };
    const press = (event: PointerEvent) => {
        const p = place(event);
        if (drawn.length >= 3 && distance(p, drawn[0]!) * sheet.scale < 14) return finish();
        if (drawn.length === 0 || distance(p, drawn.at(-1)!) > 0.02) add(p);
    };
    const side = (way: Point) => {
        const long = readLength(typed.value);
        if (long === null || long <= 0) return void (wrong.value = text.badLength);
        const start = drawn.at(-1) ?? [0, 0];
        const next: Point = [start[0] + way[0] * long, start[1] + way[1] * long];
        typed.value = '';
        if (drawn.length >= 3 && distance(next, drawn[0]!) < 0.02) return finish();
        wrong.value = '';
        set(drawn.length === 0 ? [start, next] : [...drawn, next]);
    };
    const pointed = (): Point => {
        const last = drawn.at(-1);
        const toward = state.toward;
        if (!last || !toward) return [1, 0];
        const long = distance(last, toward) || 1;
        return [(toward[0] - last[0]) / long, (toward[1] - last[1]) / long];
    };
    const points = [...drawn, ...(state.toward ? [state.toward] : [])].map(sheet.to);
    const last = drawn.at(-1);
    return (
        <>
            <div class="tools">
                <label>
                    {text.drawLength}{' '}
                    <input class="field quantity" size={9} value={typed.value} autocomplete="off" onInput={(event) => (typed.value = event.currentTarget.value)}
                        onKeyDown={(event) => event.key === 'Enter' && side(pointed())} />
                </label>
                <span class="group">
                    {arrows.map(([arrow, way]) => (
                        <button type="button" key={arrow} class="tool" aria-label={`${text.drawLength}: ${named[arrow]}`} onClick={() => side(way)}>
                            {arrow}
                        </button>
                    ))}
                </span>
                <button type="button" class="tool" disabled={drawn.length === 0} onClick={() => set(drawn.slice(0, -1))}>
                    {text.undoCorner}
                </button>
                <button type="button" class="act strong" disabled={drawn.length < 3} onClick={() => finish()}>
                    {text.finish}
                </button>
                <button type="button" class="act" onClick={() => (drawing.value = null)}>
                    {text.cancel}
                </button>
            </div>
            <div class="sheet-frame" ref={frame}>
                <svg class="board drawing" width={sheet.width} height={sheet.height} role="application" aria-label={text.draw}
                    onPointerMove={(event) => (drawing.value = { corners: drawn, toward: place(event) })} onPointerDown={press}>
                    {old && <path class="old" d={`${old.corners.map(sheet.to).map(([x, y], i) => `${i ? 'L' : 'M'}${x} ${y}`).join('')}Z`} />}
                    <path class="being" d={points.map(([x, y], i) => `${i ? 'L' : 'M'}${x} ${y}`).join('')} />
                    {drawn.map((p, i) => {
                        const [x, y] = sheet.to(p);
                        return <rect key={i} class={`corner${i === 0 && drawn.length >= 3 ? ' chosen' : ''}`} x={x - 5} y={y - 5} width="10" height="10" />;
                    })}
                    {last && state.toward && (
                        <text class="live" x={(sheet.to(last)[0] + sheet.to(state.toward)[0]) / 2} y={(sheet.to(last)[1] + sheet.to(state.toward)[1]) / 2 - 8}>
                            {printLength(distance(last, state.toward), units.value)}
                        </text>
                    )}
                </svg>
            </div>
            <div class="measures">
                <p class={wrong.value ? 'complaint' : 'soft'} role={wrong.value ? 'alert' : undefined}>
                    {wrong.value || text.drawHelp}
                </p>
            </div>
        </>
    );
}
