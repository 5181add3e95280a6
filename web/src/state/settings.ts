// SPDX-License-Identifier: MIT
// What the reader likes: units, light or dark. Kept in the browser.

import { effect, signal } from '@preact/signals';

export type Units = 'us' | 'si';
export type Light = 'auto' | 'light' | 'dark';

function kept<T extends string>(name: string, choices: readonly T[], first: T) {
    let start = first;
    try {
        const found = localStorage.getItem(name) as T | null;
        if (found && choices.includes(found)) start = found;
    } catch {
        // a browser that keeps nothing still works
    }
    const value = signal<T>(start);
    effect(() => {
        try {
            localStorage.setItem(name, value.value);
        } catch {
            // as above
        }
    });
    return value;
}

export const units = kept<Units>('units', ['us', 'si'], 'us');
export const light = kept<Light>('light', ['auto', 'light', 'dark'], 'auto');

const prefersDark = matchMedia('(prefers-color-scheme: dark)');
export const dark = signal(false);

function settle() {
    dark.value = light.value === 'dark' || (light.value === 'auto' && prefersDark.matches);
    document.documentElement.dataset.light = dark.value ? 'dark' : 'light';
}
effect(settle);
prefersDark.addEventListener('change', settle);
