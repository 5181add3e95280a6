// SPDX-License-Identifier: MIT
// What is shown of the room, and from where.

import { signal, useComputed } from '@preact/signals';
import { view } from '../state/view';
import { words } from '../words';
import type { Aim, Cut } from './stage';
import { Placing } from './placing';

const text = words.room;

export const hidden = signal<ReadonlySet<string>>(new Set());
export const cut = signal<Cut>({ axis: 'off', share: 0.6 });
export const moving = signal(false);

const order = ['heater', 'gas', 'cold', 'hot', 'recirculation', 'exhaust', 'intake', 'condensate', 'relief', 'power', 'link', 'structure'];

function turn(layer: string): void {
    const next = new Set(hidden.value);
    if (!next.delete(layer)) next.add(layer);
    hidden.value = next;
}

export function Tools({ aim }: { aim: (aim: Aim) => void }) {
    const present = useComputed(() => new Set(view.value?.pieces.map((piece) => (piece.part === 'heater' ? 'heater' : piece.service)) ?? []));
    return (
        <div class="tools">
            <div role="group" aria-label={text.viewsName} class="group">
                {(Object.keys(text.views) as Aim[]).map((one) => (
                    <button type="button" key={one} class="tool" onClick={() => aim(one)}>
                        {text.views[one]}
                    </button>
                ))}
            </div>
            <details class="drop-down">
                <summary class="tool">{text.services}</summary>
                <div role="group" aria-label={text.services} class="sheet">
                    {order
                        .filter((layer) => present.value.has(layer))
                        .map((layer) => (
                            <label key={layer}>
                                <input type="checkbox" checked={!hidden.value.has(layer)} onChange={() => turn(layer)} />
                                <i class={`swatch ${layer}`} aria-hidden="true" /> {text.service[layer]}
                            </label>
                        ))}
                </div>
            </details>
            <div class="group">
                <select class="field" aria-label={text.section} value={cut.value.axis} onChange={(event) => (cut.value = { ...cut.value, axis: event.currentTarget.value as Cut['axis'] })}>
                    {(Object.keys(text.sections) as Cut['axis'][]).map((axis) => (
                        <option key={axis} value={axis}>
                            {text.sections[axis]}
                        </option>
                    ))}
                </select>
                <input type="range" min="0" max="1" step="0.01" aria-label={text.sectionAt} value={cut.value.share} disabled={cut.value.axis === 'off'}
                    onInput={(event) => (cut.value = { ...cut.value, share: Number(event.currentTarget.value) })} />
            </div>
            <Placing />
        </div>
    );
}
