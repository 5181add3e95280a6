// SPDX-License-Identifier: MIT
// Following a candidate: the whole page shows it until another is looked at or an edit is made.

import { signal } from '@preact/signals';
import { Refused, get, within } from '../api/client';
import { readView } from '../api/read';
import type { Candidate, View } from '../api/types';
import { edit, job, notice, vocabulary } from '../state/job';
import { nodeAt } from '../given/schema';
import { units } from '../state/settings';
import { chosen, followed } from '../state/view';

export const fetching = signal<string | null>(null);

export async function candidateView(one: { layout: string; heater: string }): Promise<View> {
    const present = job.value!;
    const query = new URLSearchParams({ layout: one.layout, heater: one.heater, units: units.value });
    return readView(await get(within(present.id, `/view?${query}`)));
}

export async function follow(one: Candidate): Promise<void> {
    const shown = chosen.value?.layout;
    if (shown && shown.id === one.layout && shown.heater === one.heater) {
        followed.value = null;
        return;
    }
    const wanted = `${one.layout}/${one.heater}`;
    fetching.value = wanted;
    try {
        const view = await candidateView(one);
        if (fetching.value === wanted) followed.value = view;
    } catch (error) {
        notice.value = error instanceof Refused ? error.message : null;
    }
    if (fetching.value === wanted) fetching.value = null;
}

/** Makes the followed candidate the chosen one, in the survey's words. */
export function keepFollowed(): void {
    const layout = followed.value?.layout;
    if (!layout) return;
    const can = (name: string) => nodeAt(vocabulary.value?.schema, ['preferences', name]) !== undefined;
    void edit([
        { path: ['preferences', 'heater'], value: layout.heater },
        can('place') ? { path: ['preferences', 'place'], value: layout.id } : { path: ['preferences', 'arrangement'], value: layout.arrangement },
    ]);
}
