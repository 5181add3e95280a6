// SPDX-License-Identifier: MIT
// Which sections of the survey are folded; remembered in the browser.

import { signal } from '@preact/signals';

class Folds {
    constructor(private readonly names: ReadonlySet<string>) {}
    has = (name: string) => this.names.has(name);
    turn(name: string): void {
        const next = new Set(this.names);
        if (!next.delete(name)) next.add(name);
        try {
            localStorage.setItem('folded', JSON.stringify([...next]));
        } catch {
            // not remembered, then
        }
        folded.value = new Folds(next);
    }
}

function kept(): string[] {
    try {
        return JSON.parse(localStorage.getItem('folded') ?? 'null') ?? ['job', 'site', 'way', 'codes'];
    } catch {
        return ['job', 'site', 'way', 'codes'];
    }
}

export const folded = signal(new Folds(new Set(kept())));
