// SPDX-License-Identifier: MIT
// The job on the desk, and the edits on their way to the server.

import { batch, computed, effect, signal } from '@preact/signals';
import { Lost, Refused, get, send, within } from '../api/client';
import { key, put } from '../api/paths';
import type { Edit, Job, Json, Vocabulary } from '../api/types';
import { accepted, drafts, refuse } from './drafts';
import { lost, untilBack } from './line';
import { markEdit } from './timing';
import { chosen, failed, followed } from './view';
import { keepOutbox, latest, outbox } from './outbox';

export const job = signal<Job | null>(null);
export const vocabulary = signal<Vocabulary | null>(null);
/** Message that belongs to no field. */
export const notice = signal<string | null>(null);
/** The job's address leads nowhere. */
export const missing = signal<string | null>(null);
export const saving = computed(() => outbox.value.length > 0);

let sending = false;

/** Edits stored that the job in the page does not show yet. */
const stored = signal<Edit[]>([]);
/** The job as stored: it stands in the page with the view it leads to, so that the page is drawn once. */
let newest: Job | null = null;
/** A view that takes longer is not waited for, milliseconds. */
const longest = 150;

/** The revision the server has. */
export const storedRevision = (): number => (newest ?? job.value)?.revision ?? 0;

function show(answer: Job): void {
    if (newest !== answer) return;
    newest = null;
    batch(() => {
        const edits = stored.value;
        stored.value = [];
        if (job.value?.id !== answer.id) return;
        job.value = answer;
        for (const one of edits) accepted(key(one.path));
    });
}
effect(() => {
    const come = failed.value !== null ? Infinity : (chosen.value?.revision ?? 0);
    if (newest && come >= newest.revision) show(newest);
});

/** The survey with the edits that the job in the page does not show yet. */
export const survey = computed<{ [k: string]: Json }>(() => {
    let tree: Json = job.value?.survey ?? {};
    for (const edit of [...stored.value, ...outbox.value]) {
        if (edit.append === undefined) tree = put(tree, edit.path, edit.remove ? undefined : edit.value);
    }
    return tree as { [k: string]: Json };
});

export async function open(id: string): Promise<void> {
    job.value = null;
    newest = null;
    stored.value = [];
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
        const sent = outbox.value;
        const id = job.value.id;
        sending = true;
        try {
            const answer = await send<Job>('PATCH', within(id), { revision: storedRevision(), edits: sent });
            accept(answer, sent);
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
                if (newest) show(newest);
                job.value = error.job ?? (await get<Job>(within(id)));
                continue;
            }
            return reject(error, sent);
        } finally {
            sending = false;
        }
    }
    return null;
}

function accept(answer: Job, edits: Edit[]): void {
    newest = answer;
    batch(() => {
        notice.value = null;
        outbox.value = outbox.value.slice(edits.length);
        stored.value = [...stored.value, ...edits];
    });
    if ((chosen.value?.revision ?? 0) >= answer.revision) show(answer);
    else setTimeout(() => show(answer), longest);
}

function reject(error: Refused, edits: Edit[]): Refused {
    outbox.value = outbox.value.slice(edits.length);
    const named = error.complaint.path ? key(error.complaint.path) : null;
    const hit = edits.find((one) => key(one.path) === named) ?? (edits.length === 1 ? edits[0] : undefined);
    const field = hit ? key(hit.path) : named;
    for (const one of edits) if (key(one.path) !== field) accepted(key(one.path));
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
        if (job.value?.id !== found.id || saving.value) return;
        if (newest) show(newest);
        job.value = found;
    } catch {
        // the stream tells when the server is away
    }
}

/** Undo, redo: the server walks its revisions. */
export async function walk(way: 'undo' | 'redo'): Promise<void> {
    const present = job.value;
    if (!present || lost.value) return;
    followed.value = null;
    if (newest) show(newest);
    const typed = drafts.value;
    try {
        job.value = await send<Job>('POST', within(present.id, `/${way}`));
        // what was typed since stays
        drafts.value = new Map([...drafts.value].filter(([field, draft]) => typed.get(field) !== draft));
        notice.value = null;
    } catch (error) {
        notice.value = error instanceof Error ? error.message : String(error);
    }
}
