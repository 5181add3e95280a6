// SPDX-License-Identifier: MIT
// A server of its own with an empty job file, and a browser before it.

import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { after, before } from 'node:test';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

const root = join(dirname(fileURLToPath(import.meta.url)), '../..');
const program = process.env.BANKWRIGHT ?? join(root, 'build/release/bankwright');
const browserProgram = process.env.CHROMIUM ?? ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find(existsSync);

function freePort() {
    return new Promise((done, fail) => {
        const probe = createServer();
        probe.on('error', fail);
        probe.listen(0, '127.0.0.1', () => {
            const { port } = probe.address();
            probe.close(() => done(port));
        });
    });
}

const pause = (ms) => new Promise((done) => setTimeout(done, ms));

export class Server {
    folder = mkdtempSync(join(tmpdir(), 'bankwright-page-'));
    port = 0;
    #process = null;

    async start() {
        this.port ||= await freePort();
        const args = ['serve', '--port', String(this.port), '--jobs', join(this.folder, 'jobs.db'), '--no-open'];
        const child = spawn(program, args, { stdio: ['ignore', 'pipe', 'pipe'], detached: true });
        this.#process = child;
        let said = '';
        child.stdout.on('data', (data) => (said += data));
        child.stderr.on('data', (data) => (said += data));
        for (let turn = 0; turn < 200; ++turn) {
            if (child.exitCode !== null) throw new Error(`the server ended: ${said}`);
            try {
                if ((await fetch(`${this.address}api/jobs`)).ok) return this;
            } catch {
                // not yet
            }
            await pause(50);
        }
        throw new Error(`the server does not answer: ${said}`);
    }

    get address() {
        return `http://127.0.0.1:${this.port}/`;
    }

    /** As by a power cut; or in order, by SIGTERM. */
    async kill(signal = 'SIGKILL') {
        const child = this.#process;
        if (!child || child.exitCode !== null) return;
        const gone = new Promise((done) => child.once('exit', done));
        process.kill(-child.pid, signal);
        await gone;
        this.#process = null;
    }

    async api(method, path, body) {
        const answer = await fetch(`${this.address}api/${path}`, {
            method,
            headers: body ? { 'Content-Type': 'application/json' } : {},
            body: body && JSON.stringify(body),
        });
        return answer.status === 204 ? null : answer.json();
    }

    async end() {
        await this.kill();
        rmSync(this.folder, { recursive: true, force: true });
    }
}

export const launch = (...more) =>
    chromium.launch({
        executablePath: browserProgram,
        args: ['--no-sandbox', '--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader', '--disable-dev-shm-usage', ...more],
    });

/** Opens a page of the given size; everything the page complains of is gathered in `page.complaints`. */
export async function openPage(server, { width = 1440, height = 900, ...more } = {}) {
    const browser = await launch();
    const context = await browser.newContext({ viewport: { width, height }, acceptDownloads: true, reducedMotion: 'reduce', ...more });
    const page = await context.newPage();
    page.setDefaultTimeout(20_000);
    page.complaints = [];
    page.on('pageerror', (error) => page.complaints.push(String(error)));
    page.outside = [];
    page.on('request', (request) => {
        if (!request.url().startsWith(server.address) && !/^(blob|data):/.test(request.url())) page.outside.push(request.url());
    });
    await page.goto(server.address);
    return { browser, page };
}

/** A server started and a page opened before it, handed to `then`, before the tests of a file; both go after them. */
export function onPage(server, then) {
    let browser;
    before(async () => {
        await server.start();
        const opened = await openPage(server);
        browser = opened.browser;
        await then(opened.page);
    });
    after(async () => {
        await browser?.close();
        await server.end();
    });
}

/** A job made through the interface's back door, for tests that are about something else. */
export async function makeJob(server, from = 'example:hostel', edits = []) {
    let job = await server.api('POST', 'jobs', { from });
    if (edits.length > 0) job = await server.api('PATCH', `jobs/${job.id}`, { revision: job.revision, edits });
    if (job.error) throw new Error(job.error.says);
    return job.id;
}

export async function openJob(page, server, id, rest = '') {
    await page.goto(`${server.address}#/job/${id}${rest}`);
    await page.locator('[data-price]').filter({ hasText: '$' }).waitFor();
}

/** The field of a place in the survey. */
export const field = (page, path) => page.locator(`.part.given [data-field="${path}"]`);

/** Types into a field and waits until it is saved. */
export async function typeInto(page, path, text) {
    const there = field(page, path);
    const before = await revision(page);
    await there.fill(text);
    await there.press('Enter');
    await page.waitForFunction((was) => Number(document.querySelector('.cell.revision .cell-name')?.textContent.replace(/\D/g, '')) > was, before);
}

export const revision = async (page) => Number((await page.locator('.cell.revision .cell-name').textContent()).replace(/\D/g, ''));

export const price = async (page) => Number((await page.locator('[data-price]').textContent()).replace(/\D/g, ''));
