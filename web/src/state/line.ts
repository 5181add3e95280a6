// SPDX-License-Identifier: MIT
// The line to the server: whether it stands, and waiting until it does again.

import { signal } from '@preact/signals';

export const lost = signal(false);

const pauses = [250, 500, 1000, 2000, 4000];
let waiting: Promise<void> | null = null;

async function wait(): Promise<void> {
    lost.value = true;
    for (let turn = 0; ; ++turn) {
        await new Promise((done) => setTimeout(done, pauses[Math.min(turn, pauses.length - 1)]));
        try {
            const answer = await fetch('api/jobs', { cache: 'no-store' });
            if (answer.ok) break;
        } catch {
            // still away
        }
    }
    lost.value = false;
    waiting = null;
}

/** Resolves when the server answers again. */
export function untilBack(): Promise<void> {
    waiting ??= wait();
    return waiting;
}
