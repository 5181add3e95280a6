// SPDX-License-Identifier: MIT
// The measures of what is chosen, typed.

import { useSignal } from '@preact/signals';
import { useId } from 'preact/hooks';
import { Field } from '../given/field';
import { units } from '../state/settings';
import { printLength, readLength } from '../units/length';
import { words } from '../words';
import { side } from './geometry';
import type { Drawing } from './model';
import { moved, present, withLength } from './pick';

const text = words.plan;

interface Typed {
    name: string;
    metres: number;
    take: (metres: number) => void;
}

/** A length that is a result of the drawing (a side), not a value of the survey. */
export function Length({ name, metres, take }: Typed) {
    const id = useId();
    const wrong = useSignal(false);
    return (
        <span class="slot">
            <label for={id}>{name}</label>{' '}
            <input
                id={id}
                class={`field quantity${wrong.value ? ' wrong' : ''}`}
                size={10}
                autocomplete="off"
                value={printLength(metres, units.value)}
                aria-invalid={wrong.value || undefined}
                aria-describedby={`${id}h`}
                onKeyDown={(event) => {
                    if (event.key === 'Enter') event.currentTarget.blur();
                }}
                onChange={(event) => {
                    const read = readLength(event.currentTarget.value);
                    wrong.value = read === null || read <= 0;
                    if (read !== null && read > 0) take(read);
                }}
            />
            <span id={`${id}h`} class={wrong.value ? 'complaint' : 'unseen'}>
                {text.badLength}
            </span>
        </span>
    );
}

export function Measures({ drawing, change }: { drawing: Drawing; change: (next: Drawing) => void }) {
    const what = present(drawing);
    if (!what) return <p class="soft">{text.chosen.none}</p>;
    const exact = (metres: number) => metres;
    switch (what.kind) {
        case 'corner':
            return (
                <p>
                    <b>{text.chosen.corner(what.index + 1)}</b> {text.x} <Field field={`room.plan.${what.index}.0`} name={`${text.chosen.corner(what.index + 1)} ${text.x}`} />{' '}
                    {text.y} <Field field={`room.plan.${what.index}.1`} name={`${text.chosen.corner(what.index + 1)} ${text.y}`} />
                </p>
            );
        case 'wall':
            return (
                <p>
                    <b>{text.chosen.wall(what.index + 1)}</b>{' '}
                    <Length name={text.length} metres={side(drawing.corners, what.index).long} take={(long) => change(withLength(drawing, what.index, long))} />
                </p>
            );
        case 'door': {
            const base = `room.door.${what.index}`;
            return (
                <p>
                    <b>{text.chosen.door(what.index + 1)}</b> {text.wallNo} <Field field={`${base}.wall`} /> {text.along} <Field field={`${base}.offset`} /> {text.width}{' '}
                    <Field field={`${base}.width`} />
                </p>
            );
        }
        case 'obstacle': {
            const one = drawing.obstacles[what.index]!;
            const grow = (axis: number) => (long: number) => {
                const obstacles = drawing.obstacles.map((other, i) =>
                    i === what.index ? { ...one, max: one.max.map((v, k) => (k === axis ? one.min[axis]! + long : v)) } : other,
                );
                change({ ...drawing, obstacles });
            };
            return (
                <p>
                    <Field field={`room.obstacle.${what.index}.name`} /> <Length name={text.x} metres={one.min[0]!} take={(x) => change(moved(drawing, what, [x + (one.max[0]! - one.min[0]!) / 2, (one.min[1]! + one.max[1]!) / 2], exact))} />{' '}
                    <Length name={text.y} metres={one.min[1]!} take={(y) => change(moved(drawing, what, [(one.min[0]! + one.max[0]!) / 2, y + (one.max[1]! - one.min[1]!) / 2], exact))} />{' '}
                    <Length name={text.width} metres={one.max[0]! - one.min[0]!} take={grow(0)} /> <Length name={text.depth} metres={one.max[1]! - one.min[1]!} take={grow(1)} />
                </p>
            );
        }
        case 'connection': {
            const one = drawing.connections[what.index]!;
            const name = words.given.connections[one.name] ?? one.name;
            return (
                <p>
                    <b>{name}</b>{' '}
                    {one.given ? (
                        [text.x, text.y, text.up].map((axis, i) => (
                            <span key={axis}>
                                {axis} <Field field={`connections.${one.name}.at.${i}`} name={`${name} ${axis}`} />{' '}
                            </span>
                        ))
                    ) : (
                        <button type="button" class="act" onClick={() => change({ ...drawing, connections: drawing.connections.map((c) => (c === one ? { ...c, given: true } : c)) })}>
                            {words.given.connectionHere}
                        </button>
                    )}
                </p>
            );
        }
    }
}
