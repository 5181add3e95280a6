// SPDX-License-Identifier: MIT
// One place that speaks to the server.

import type { Complaint, Job } from './types';

/** The server refused, and says why. */
export class Refused extends Error {
    constructor(
        readonly status: number,
        readonly complaint: Complaint,
        readonly job?: Job,
    ) {
        super(complaint.says);
    }
}

/** The server could not be reached. */
export class Lost extends Error {}

async function complaintOf(answer: Response): Promise<Refused> {
    let body: { error?: Complaint; job?: Job } = {};
    try {
        body = await answer.json();
    } catch {
        // not ours: the status alone has to do
    }
    const said = body.error ?? { says: `${answer.status} ${answer.statusText}` };
    const says = said.expected ? `${said.says}; ${said.expected}` : said.says;
    return new Refused(answer.status, { ...said, says }, body.job);
}

/** Asks the server; fails with Refused or Lost and nothing else. */
export async function ask(method: string, path: string, body?: unknown, signal?: AbortSignal): Promise<Response> {
    const text = typeof body === 'string';
    let answer: Response;
    try {
        answer = await fetch(`api/${path}`, {
            method,
            signal,
            headers: body === undefined ? {} : { 'Content-Type': 'application/json' },
            body: body === undefined ? undefined : text ? body : JSON.stringify(body),
        });
    } catch (cause) {
        if (signal?.aborted) throw cause;
        throw new Lost('no answer', { cause });
    }
    // a proxy in between that lost its server answers so
    if (answer.status === 502 || answer.status === 503 || answer.status === 504) throw new Lost(answer.statusText);
    if (!answer.ok) throw await complaintOf(answer);
    return answer;
}

export async function get<T>(path: string, signal?: AbortSignal): Promise<T> {
    return (await ask('GET', path, undefined, signal)).json();
}

export async function send<T>(method: string, path: string, body?: unknown, signal?: AbortSignal): Promise<T> {
    // a DELETE carries no body: the server refuses one
    const answer = await ask(method, path, method === 'DELETE' ? undefined : (body ?? {}), signal);
    return answer.status === 204 ? (undefined as T) : answer.json();
}

export const within = (job: string, rest = '') => `jobs/${encodeURIComponent(job)}${rest}`;
