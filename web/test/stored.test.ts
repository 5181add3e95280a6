// SPDX-License-Identifier: MIT
// An edit stored stands in the page with the view it leads to.
import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { Job, View } from '../src/api/types';
import { edit, job, saving, storedRevision, survey, walk } from '../src/state/job';
import { drafts, sent, type } from '../src/state/drafts';
import { chosen, failed } from '../src/state/view';

const jobAt = (revision: number, pressure: string) =>
    ({ id: 'a', name: 'one', revision, survey: { supply: { pressure } }, assumed: [], 'can-undo': revision > 1, 'can-redo': false }) as unknown as Job;
const viewAt = (revision: number) => ({ revision }) as View;
const wish = (value: string) => ({ path: ['supply', 'pressure'], value });
let asked: { revision: number; edits: unknown[] }[] = [];

beforeEach(() => {
    vi.useFakeTimers();
    asked = [];
    let stored = 1;
    vi.stubGlobal('fetch', async (_: string, init: RequestInit) => {
        const body = JSON.parse(String(init.body));
        asked.push(body);
        stored += 1;
        return new Response(JSON.stringify(jobAt(stored, body.edits.at(-1).value)), { status: 200 });
    });
    job.value = jobAt(1, '60 psi');
    chosen.value = viewAt(1);
    failed.value = null;
    drafts.value = new Map();
});

describe('an edit that was stored', () => {
    it('is drawn with its view, and the next goes on top of it meanwhile', async () => {
        sent('supply.pressure', '61 psi');
        await edit([wish('61 psi')]);
        expect(saving.value).toBe(false);
        expect(storedRevision()).toBe(2);
        expect(job.value!.revision).toBe(1);
        expect(survey.value).toEqual({ supply: { pressure: '61 psi' } });
        await edit([wish('62 psi')]);
        expect(asked.map((one) => one.revision)).toEqual([1, 2]);
        expect(survey.value).toEqual({ supply: { pressure: '62 psi' } });
        chosen.value = viewAt(3);
        expect(job.value!.revision).toBe(3);
        expect(survey.value).toEqual({ supply: { pressure: '62 psi' } });
        expect(drafts.value.size).toBe(0);
    });
    it('does not wait for a view that takes long', async () => {
        await edit([wish('61 psi')]);
        expect(job.value!.revision).toBe(1);
        vi.advanceTimersByTime(200);
        expect(job.value!.revision).toBe(2);
    });
    it('stands at once where its view has come before, or none will come', async () => {
        chosen.value = viewAt(2);
        await edit([wish('61 psi')]);
        expect(job.value!.revision).toBe(2);
        await edit([wish('63 psi')]);
        expect(job.value!.revision).toBe(2);
        failed.value = 'no heater burns this gas';
        expect(job.value!.revision).toBe(3);
    });
});

describe('undo', () => {
    it('drops what was typed before it, and keeps what is typed while the server takes its time', async () => {
        let answer: (job: Response) => void = () => {};
        vi.stubGlobal('fetch', () => new Promise<Response>((done) => (answer = done)));
        type('supply.hardness', 'half a word');
        const walked = walk('undo');
        type('supply.pressure', '64 psi');
        answer(new Response(JSON.stringify(jobAt(1, '60 psi')), { status: 200 }));
        await walked;
        expect([...drafts.value.keys()]).toEqual(['supply.pressure']);
    });
});
