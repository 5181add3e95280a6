// SPDX-License-Identifier: MIT
// Keys that work anywhere on the page, and the card that lists them.

import { useRef } from 'preact/hooks';
import { walk } from '../state/job';
import { go, route } from '../state/route';
import { words } from '../words';
import { allParts, showPart } from './parts';

export function KeysButton() {
    const card = useRef<HTMLDialogElement>(null);
    return (
        <>
            <button type="button" class="tool" onClick={() => card.current?.showModal()}>
                {words.frame.keys}
            </button>
            <dialog ref={card} class="keys" aria-label={words.keys.title}>
                <h2>{words.keys.title}</h2>
                <dl>
                    {words.keys.rows.map(([key, does]) => (
                        <div key={key}>
                            <dt>
                                <kbd>{key}</kbd>
                            </dt>
                            <dd>{does}</dd>
                        </div>
                    ))}
                </dl>
                <button type="button" class="act" onClick={() => card.current?.close()}>
                    {words.keys.close}
                </button>
            </dialog>
        </>
    );
}

/** A field keeps its own undo while what it holds is not taken yet. */
const typing = (target: EventTarget | null): boolean =>
    target instanceof HTMLInputElement && target.type !== 'checkbox' && target.type !== 'range' && target.classList.contains('sent');

export function listen(): void {
    addEventListener('keydown', (event) => {
        if (!route.value.job) return;
        const key = event.key.toLowerCase();
        if ((event.ctrlKey || event.metaKey) && !event.altKey && (key === 'z' || key === 'y')) {
            if (typing(event.target)) return;
            event.preventDefault();
            void walk(key === 'y' || event.shiftKey ? 'redo' : 'undo');
        }
        if (event.altKey && !event.ctrlKey && /^[1-7]$/.test(event.key)) {
            event.preventDefault();
            const part = allParts[Number(event.key) - 1]!;
            showPart(part);
            // what is hidden yet is shown first; what is not has the focus before the next key
            if (!focusPart(part)) setTimeout(() => focusPart(part));
        }
        if (event.key === 'Escape' && !event.defaultPrevented && (route.value.check || route.value.piece) && !document.querySelector('dialog[open]')) go({});
    });
}

/** Whether the part has the focus now. */
function focusPart(part: string): boolean {
    const region = document.querySelector<HTMLElement>(`[data-part="${part}"]`);
    region?.querySelector<HTMLElement>('canvas, svg.board, input, a[href], button, select, summary')?.focus();
    return region?.contains(document.activeElement) ?? false;
}
