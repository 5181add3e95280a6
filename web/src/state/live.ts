// SPDX-License-Identifier: MIT
// The stream of views: opened for the job on the desk, opened again when the line breaks.

import { effect } from '@preact/signals';
import { within } from '../api/client';
import { putIn, readCandidates, readView } from '../api/read';
import { job, refresh, saving, storedRevision } from './job';
import { lost, untilBack } from './line';
import { jobId } from './route';
import { units } from './settings';
import { markCame } from './timing';
import { chosen, failed, wider, working } from './view';

function follow(id: string, inUnits: string): () => void {
    let stream: EventSource | null = null;
    let stopped = false;
    /** The last view as it came: what a change is put into. */
    let base: any = null;

    const take = (packed: any) => {
        base = packed;
        markCame(packed.revision);
        const next = readView(packed);
        if (chosen.value && next.revision < chosen.value.revision && next.revision < (job.value?.revision ?? 0)) return;
        failed.value = null;
        working.value = null;
        chosen.value = next;
        if (next.candidates.length > 0) wider.value = next.candidates;
    };

    const on = (name: string, then: (data: any) => void) =>
        stream!.addEventListener(name, (event) => then(JSON.parse((event as MessageEvent).data)));

    const start = () => {
        if (stopped) return;
        stream = new EventSource(`api/${within(id, `/events?units=${inUnits}`)}`);
        on('job', (data) => {
            const present = job.value;
            if (!present || present.id !== id || saving.value) return;
            if (data.revision !== storedRevision()) void refresh();
            else if (data.revision === present.revision) job.value = { ...present, ...data };
        });
        on('working', (data) => (working.value = data));
        on('view', (data) => take(data));
        on('change', (data) => take(putIn(base, data)));
        on('wider', (data) => {
            working.value = null;
            wider.value = readCandidates(data.candidates ?? []);
            if (chosen.value) chosen.value = { ...chosen.value, settled: true, shortfalls: data.shortfalls ?? chosen.value.shortfalls };
        });
        on('failed', (data) => {
            working.value = null;
            failed.value = data.says;
        });
        stream.onerror = () => {
            if (stopped || stream?.readyState === EventSource.OPEN) return;
            stream?.close();
            void untilBack().then(start);
        };
    };
    start();
    return () => {
        stopped = true;
        stream?.close();
    };
}

/** Follows whichever job is open, in the units chosen. */
export function keepFollowing(): void {
    effect(() => {
        const id = jobId.value;
        const inUnits = units.value;
        if (!id) return;
        return follow(id, inUnits);
    });
    effect(() => {
        if (lost.value) working.value = null;
    });
}
