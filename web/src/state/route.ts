// SPDX-License-Identifier: MIT
// Where the reader is, kept in the address so that back, forward and a sent link work.
// #/  ·  #/job/ID  ·  #/job/ID/check/CHECK  ·  #/job/ID/piece/PIECE

import { computed, signal } from '@preact/signals';

export interface Route {
    job: string | null;
    check: string | null;
    piece: string | null;
}

export function read(hash: string): Route {
    const parts = hash.replace(/^#\/?/, '').split('/').map(plain);
    const job = parts[0] === 'job' && parts[1] ? parts[1] : null;
    const named = job ? parts[2] : undefined;
    const rest = parts[3] || null;
    return { job, check: named === 'check' ? rest : null, piece: named === 'piece' ? rest : null };
}

function plain(part: string): string {
    try {
        return decodeURIComponent(part);
    } catch {
        return part;
    }
}

export function write(route: Partial<Route>): string {
    if (!route.job) return '#/';
    const base = `#/job/${encodeURIComponent(route.job)}`;
    if (route.check) return `${base}/check/${encodeURIComponent(route.check)}`;
    if (route.piece) return `${base}/piece/${encodeURIComponent(route.piece)}`;
    return base;
}

export const route = signal<Route>(read(location.hash));
addEventListener('hashchange', () => (route.value = read(location.hash)));

export const jobId = computed(() => route.value.job);

/** Goes somewhere within the present job, or to another. */
export function go(to: Partial<Route>): void {
    const target = write({ job: route.value.job, ...to });
    if (target !== location.hash) location.hash = target;
}
