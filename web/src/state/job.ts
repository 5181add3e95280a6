// SPDX-License-Identifier: MIT
// The job on the desk, and the edits on their way to the server.

import { computed, signal } from '@preact/signals';
import { Lost, Refused, get, send, within } from '../api/client';
import { key, put } from '../api/paths';
import type { Edit, Job, Json, Vocabulary } from '../api/types';
import { accepted, drafts, refuse, type Draft } from './drafts';
import { lost, untilBack } from './line';
import { markEdit } from './timing';
import { followed } from './view';
import { keepOutbox, latest, outbox } from './outbox';

export const job = signal<Job | null>(null);
export const vocabulary = signal<Vocabulary | null>(null);
/** Message that belongs to no field. */
export const notice = signal<string | null>(null);
/** The job's address leads nowhere. */
export const missing = signal<string | null>(null);
export const saving = computed(() => outbox.value.length > 0);

let sending = false;

/** The survey with the edits still on their way put in. */
export const survey = computed<{ [k: string]: Json }>(() => {
    let tree: Json = job.value?.survey ?? {};
    for (const edit of outbox.value) {
        if (edit.append === undefined) tree = put(tree, edit.path, edit.remove ? undefined : edit.value);
    }
    return tree as { [k: string]: Json };
});

export async function open(id: string): Promise<void> {
    job.value = null;
    missing.value = null;
    keepOutbox(id);
    for (;;) {
        try {
            if (!vocabulary.value) vocabulary.value = await get<Vocabulary>('words');
            job.value = await get<Job>(within(id));
            break;
        } catch (error) {
            if (error instanceof Refused) {
                missing.value = error.message;
                return;
            }
            await untilBack();
        }
    }
    void flush();
}

/** Sends edits to the server; resolves to what the server said against them, or null. */
export function edit(edits: Edit[]): Promise<Refused | null> {
    markEdit();
    const all = [...outbox.value, ...edits];
    outbox.value = sending && !lost.value ? all : latest(all);
    followed.value = null;
    return flush();
}

let running: Promise<Refused | null> | null = null;
function flush(): Promise<Refused | null> {
    running = (running ?? Promise.resolve(null)).then(post);
    return running;
}

async function post(): Promise<Refused | null> {
    while (outbox.value.length > 0 && job.value) {
        const batch = outbox.value;
        const id = job.value.id;
        sending = true;
        try {
            const answer = await send<Job>('PATCH', within(id), { revision: job.value.revision, edits: batch });
            accept(answer, batch);
        } catch (error) {
            if (error instanceof Lost) {
                outbox.value = latest(outbox.value);
                await untilBack();
                if (job.value?.id !== id) return null;
                continue;
            }
            if (!(error instanceof Refused)) throw error;
            if (error.status === 409) {
                // somebody else wrote meanwhile: our edits are small and go on top of theirs
                job.value = error.job ?? (await get<Job>(within(id)));
                continue;
            }
            return reject(error, batch);
        } finally {
            sending = false;
        }
    }
    return null;
}

function accept(answer: Job, batch: Edit[]): void {
    notice.value = null;
    job.value = answer;
    outbox.value = outbox.value.slice(batch.length);
    for (const one of batch) accepted(key(one.path));
}

function reject(error: Refused, batch: Edit[]): Refused {
    outbox.value = outbox.value.slice(batch.length);
    const named = error.complaint.path ? key(error.complaint.path) : null;
    const hit = batch.find((one) => key(one.path) === named) ?? (batch.length === 1 ? batch[0] : undefined);
    const field = hit ? key(hit.path) : named;
    for (const one of batch) if (key(one.path) !== field) accepted(key(one.path));
    if (field && drafts.value.has(field)) refuse(field, error.complaint.says);
    else notice.value = error.complaint.says;
    return error;
}

/** Another window changed the job: reads it anew. */
export async function refresh(): Promise<void> {
    const present = job.value;
    if (!present) return;
    try {
        const found = await get<Job>(within(present.id));
        if (job.value?.id === found.id && !saving.value) job.value = found;
    } catch {
        // the stream tells when the server is away
    }
}

/** Undo, redo: the server walks its revisions. */
export async function walk(way: 'undo' | 'redo'): Promise<void> {
    const present = job.value;
    if (!present || lost.value) return;
    followed.value = null;
    try {
        job.value = await send<Job>('POST', within(present.id, `/${way}`));
        drafts.value = new Map<string, Draft>();
        notice.value = null;
    } catch (error) {
        notice.value = error instanceof Error ? error.message : String(error);
    }
}
