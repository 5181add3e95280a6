// SPDX-License-Identifier: MIT
// The list of jobs.

import { signal } from '@preact/signals';
import { Lost, Refused, get, send, within } from '../api/client';
import type { Complaint, Job, JobRow, Vocabulary } from '../api/types';
import { vocabulary } from '../state/job';
import { untilBack } from '../state/line';
import { go } from '../state/route';
import { words } from '../words';

export const jobs = signal<JobRow[] | null>(null);
export const deleted = signal<JobRow[]>([]);
export const complaint = signal('');
/** Whether the file of jobs is damaged, so that the list may be short. */
export const damaged = signal(false);
export const justDeleted = signal<JobRow | null>(null);

/** Asks until the server is there; what it refuses is told. */
export async function load(): Promise<void> {
    for (;;) {
        try {
            const [list, found] = await Promise.all([get<{ jobs: JobRow[]; deleted?: JobRow[]; error?: Complaint }>('jobs'), vocabulary.value ?? get<Vocabulary>('words')]);
            vocabulary.value = found;
            jobs.value = list.jobs.filter((one) => !one.deleted);
            damaged.value = list.error !== undefined;
            deleted.value = list.deleted ?? list.jobs.filter((one) => one.deleted);
            return;
        } catch (error) {
            if (!(error instanceof Lost)) {
                complaint.value = error instanceof Error ? error.message : String(error);
                return;
            }
            await untilBack();
        }
    }
}

async function tell(work: () => Promise<void>): Promise<void> {
    complaint.value = '';
    try {
        await work();
    } catch (error) {
        complaint.value = error instanceof Refused ? error.message : words.line.lost;
    }
}

export const begin = (from: string, name: string) =>
    tell(async () => {
        const made = await send<Job>('POST', 'jobs', name.trim() ? { from, name: name.trim() } : { from });
        go({ job: made.id });
    });

export const openFile = (file: File) =>
    tell(async () => {
        if (file.size > 1_000_000) {
            complaint.value = words.jobs.tooLarge;
            return;
        }
        try {
            const made = await send<Job>('POST', 'jobs', { toml: await file.text() });
            go({ job: made.id });
        } catch (error) {
            if (!(error instanceof Refused)) throw error;
            const { line, says } = error.complaint;
            complaint.value = words.jobs.wrongFile(line ? `${file.name}:${line}: ${says}` : says);
        }
    });

export const remove = (row: JobRow) =>
    tell(async () => {
        await send('DELETE', within(row.id));
        justDeleted.value = row;
        await load();
    });

export const restore = (row: JobRow) =>
    tell(async () => {
        await send('POST', within(row.id, '/restore'));
        justDeleted.value = null;
        await load();
    });

export const copy = (row: JobRow) =>
    tell(async () => {
        await send('POST', 'jobs', { from: `job:${row.id}`, name: words.jobs.copyOf(row.name) });
        await load();
    });
