// SPDX-License-Identifier: MIT
// What was typed and is not accepted yet, by the field's path. It outlives a lost server and a closed tab.

import { effect, signal } from '@preact/signals';

export interface Draft {
    text: string;
    /** On its way to the server as it stands. */
    sent?: boolean;
    /** The server's word against it. */
    says?: string;
}

export const drafts = signal<ReadonlyMap<string, Draft>>(new Map());

function change(then: (copy: Map<string, Draft>) => void): void {
    const copy = new Map(drafts.value);
    then(copy);
    drafts.value = copy;
}

export const type = (field: string, text: string) => change((copy) => copy.set(field, { text }));
export const sent = (field: string, text: string) => change((copy) => copy.set(field, { text, sent: true }));
export const settle = (field: string) => {
    if (drafts.value.has(field)) change((copy) => copy.delete(field));
};
/** The server took it; what was typed since stays. */
export const accepted = (field: string) => {
    if (drafts.value.get(field)?.sent) settle(field);
};
export const refuse = (field: string, says: string) =>
    change((copy) => copy.set(field, { text: copy.get(field)?.text ?? '', says }));

let home = '';
/** Takes up what was typed into a job and not accepted; `waits` tells whether an edit of a field was kept. */
export function keepDrafts(job: string, waits: (field: string) => boolean): void {
    home = '';
    let found: [string, Draft][] = [];
    try {
        found = JSON.parse(localStorage.getItem(`typed:${job}`) ?? '[]');
    } catch {
        // nothing kept
    }
    drafts.value = new Map(found.filter(([field, draft]) => !draft.sent || draft.says || waits(field)));
    home = job;
}

effect(() => {
    const text = JSON.stringify([...drafts.value]);
    if (!home) return;
    try {
        if (drafts.value.size === 0) localStorage.removeItem(`typed:${home}`);
        else localStorage.setItem(`typed:${home}`, text);
    } catch {
        // a browser that keeps nothing still works
    }
});
