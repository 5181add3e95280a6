// SPDX-License-Identifier: MIT
// What the page shows: the plant as it was chosen, or a candidate looked at in its place.

import { computed, signal } from '@preact/signals';
import type { Candidate, View } from '../api/types';

/** The latest view of the chosen plant. */
export const chosen = signal<View | null>(null);
/** A candidate the reader follows in its stead. */
export const followed = signal<View | null>(null);
export const wider = signal<Candidate[]>([]);

export const view = computed(() => followed.value ?? chosen.value);

export const candidates = computed<Candidate[]>(() => {
    const widest = wider.value;
    return widest.length > 0 ? widest : (chosen.value?.candidates ?? []);
});

export const working = signal<{ stage: string; done: number } | null>(null);
/** Why there is no plant to show, in the server's words. */
export const failed = signal<string | null>(null);

export function clearViews(): void {
    chosen.value = null;
    followed.value = null;
    wider.value = [];
    working.value = null;
    failed.value = null;
}
