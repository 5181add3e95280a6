// SPDX-License-Identifier: MIT
// Edits not yet accepted, in order; kept in the browser too, so that closing the tab while the server is away loses none.

import { effect, signal } from '@preact/signals';
import { key } from '../api/paths';
import type { Edit } from '../api/types';
import { keepDrafts } from './drafts';

export const outbox = signal<Edit[]>([]);
let home = '';

export function keepOutbox(job: string): void {
    if (home === job) return;
    home = '';
    let found: Edit[] = [];
    try {
        found = JSON.parse(localStorage.getItem(`edits:${job}`) ?? '[]');
    } catch {
        // nothing kept
    }
    outbox.value = found;
    keepDrafts(job, (field) => found.some((one) => key(one.path) === field));
    home = job;
}

effect(() => {
    const text = JSON.stringify(outbox.value);
    if (!home) return;
    try {
        if (outbox.value.length === 0) localStorage.removeItem(`edits:${home}`);
        else localStorage.setItem(`edits:${home}`, text);
    } catch {
        // a browser that keeps nothing still works
    }
});

const plain = (one: Edit) => one.append === undefined && !one.remove;

/** Of several values for one place the last. What is added to a list or taken out of it comes between: places after it are others. */
export function latest(edits: Edit[]): Edit[] {
    return edits.filter((one, i) => {
        if (!plain(one)) return true;
        const later = edits.slice(i + 1);
        const until = later.findIndex((other) => !plain(other));
        const same = (other: Edit) => key(other.path) === key(one.path);
        return !(until < 0 ? later : later.slice(0, until)).some(same);
    });
}
