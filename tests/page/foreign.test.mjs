// SPDX-License-Identifier: MIT
// Another site's page in the same browser, and one whose name comes to lead to this computer: neither reads anything of a job, makes
// one or changes one.

import assert from 'node:assert/strict';
import { createServer } from 'node:http';
import { after, before, test } from 'node:test';
import { Server, launch, makeJob } from './support.mjs';

const server = new Server();
const secret = 'Confidential bath house';
let browser, elsewhere, other, id;

before(async () => {
    await server.start();
    id = await makeJob(server, 'example:hostel', [{ path: ['job', 'title'], value: secret }]);
    await server.api('PATCH', `jobs/${id}`, { name: secret });
    elsewhere = createServer((_, answer) => answer.writeHead(200, { 'Content-Type': 'text/html' }).end('<!doctype html><title>elsewhere</title>'));
    await new Promise((done) => elsewhere.listen(0, '127.0.0.1', done));
    other = elsewhere.address().port;
    browser = await launch('--host-resolver-rules=MAP evil.example 127.0.0.1', '--disable-features=LocalNetworkAccessChecks,BlockInsecurePrivateNetworkRequests');
});

after(async () => {
    await browser?.close();
    elsewhere?.close();
    await server.end();
});

/** Requests that hide in a body, and ways to have them sent. */
function attack({ port, id }) {
    const base = `http://127.0.0.1:${port}`;
    const hidden = (method, path, text) =>
        `${method} ${path} HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\nContent-Type: application/json\r\nContent-Length: ${text.length}\r\n\r\n${text}`;
    const bodies = [
        hidden('POST', '/api/jobs', '{"from":"starter"}'),
        hidden('PATCH', `/api/jobs/${id}`, '{"name":"taken over"}'),
        `0\r\n\r\n${hidden('POST', '/api/jobs', '{"from":"starter"}')}`,
    ];
    const asked = [];
    for (const body of bodies)
        for (const path of ['/api/jobs', '/', '/nothing', `/api/jobs/${id}/undo`, `/${'a'.repeat(9000)}`, '/api/jobs?revision=x'])
            for (const [type, method] of [['text/plain', 'POST'], ['application/x-www-form-urlencoded', 'POST'], ['', 'POST']])
                asked.push(() => fetch(base + path, { mode: 'no-cors', method, body: new Blob([body], { type }) }));
    for (const method of ['POST', 'PUT', 'PATCH', 'DELETE'])
        asked.push(() => fetch(`${base}/api/jobs`, { method, body: bodies[0], headers: { 'Content-Type': 'application/json' } }));
    for (const what of ['', `/${id}`, `/${id}/survey.toml`, `/${id}/events`]) asked.push(() => fetch(`${base}/api/jobs${what}`));
    asked.push(() => navigator.sendBeacon(`${base}/api/jobs`, bodies[0]) && null);
    return asked;
}

/** What a page could read of the answers. */
const readings = (page, asked) =>
    page.evaluate(
        async ({ code, asked }) => {
            const attack = new Function(`return (${code})`)();
            const read = [];
            for (const ask of attack(asked))
                try {
                    const answer = await ask();
                    if (answer) read.push(await answer.text());
                } catch {
                    // refused by the browser or the server
                }
            return read.join('\n');
        },
        { code: asked.code, asked },
    );

async function nothingHappened() {
    const { jobs, deleted } = await server.api('GET', 'jobs');
    assert.deepEqual([...jobs, ...deleted].map((job) => job.name), [secret]);
    assert.equal((await server.api('GET', `jobs/${id}`)).revision, 2);
}

test("another site's page reads nothing and makes nothing", async () => {
    const page = await (await browser.newContext()).newPage();
    await page.goto(`http://evil.example:${other}/`);
    const read = await readings(page, { code: attack.toString(), port: server.port, id });
    assert.ok(!read.includes(secret), read);
    // by a form, too: the whole page goes there
    await page.evaluate(
        ({ port, text }) => {
            const form = document.createElement('form');
            form.method = 'post';
            form.enctype = 'text/plain';
            form.action = `http://127.0.0.1:${port}/api/jobs`;
            const field = document.createElement('textarea');
            field.name = text;
            form.append(field);
            document.body.append(form);
            form.submit();
        },
        { port: server.port, text: '{"from":"starter"}' },
    );
    await page.waitForURL(`**:${server.port}/**`);
    assert.ok(!(await page.content()).includes(secret));
    await nothingHappened();
});

test('a name that comes to lead here reads nothing and makes nothing', async () => {
    const page = await (await browser.newContext()).newPage();
    // the page itself came from elsewhere, before its name was pointed here
    await page.route('**/planted', (route) => route.fulfill({ contentType: 'text/html', body: '<!doctype html><title>planted</title>' }));
    await page.goto(`http://evil.example:${server.port}/planted`);
    const read = await page.evaluate(
        async ({ id }) => {
            const out = [];
            const ask = async (path, options) => {
                const stop = new AbortController();
                setTimeout(() => stop.abort(), 2000);
                const got = { status: 0, text: '' };
                try {
                    const answer = await fetch(path, { ...options, signal: stop.signal });
                    got.status = answer.status;
                    const reader = answer.body.getReader(), decoder = new TextDecoder('latin1');
                    for (let part = await reader.read(); !part.done; part = await reader.read()) got.text += decoder.decode(part.value);
                } catch {
                    // refused, or without an end: what came before counts
                }
                if (got.status !== 0) out.push(got);
            };
            for (const path of ['/', '/api/jobs', `/api/jobs/${id}`, '/nothing'])
                for (const range of ['', 'bytes=0-', 'bytes=0-131071', 'bytes=200-131071', 'bytes=100000-200000', 'bytes=-100000'])
                    for (let turn = 0; turn < 3; ++turn) await ask(path, range ? { headers: { Range: range } } : {});
            const json = { 'Content-Type': 'application/json' };
            await ask('/api/jobs', { method: 'POST', headers: json, body: '{"from":"starter"}' });
            await ask(`/api/jobs/${id}`, { method: 'PATCH', headers: json, body: '{"name":"taken over"}' });
            return out;
        },
        { id },
    );
    for (const { status, text } of read) {
        assert.equal(status, 421);
        assert.ok(text.length < 300 && !text.includes(secret), `${text.length} bytes: ${text.slice(0, 300)}`);
    }
    assert.ok(read.length >= 70, `${read.length} answers`);
    await nothingHappened();
});
