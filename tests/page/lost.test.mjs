// SPDX-License-Identifier: MIT
// The server is killed while somebody types, and comes back.

import assert from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { Server, field, makeJob, onPage, openJob, typeInto } from './support.mjs';

const server = new Server();
let page, id;

onPage(server, async (opened) => {
    page = opened;
    id = await makeJob(server);
    await openJob(page, server, id);
});

test('what is typed while the server is away is kept, and lands when it is back', async () => {
    await typeInto(page, 'supply.pressure', '61 psi');
    await field(page, 'supply.hardness').fill('95 mg');
    await server.kill();
    await field(page, 'supply.hardness').fill('95 mg/L');
    await field(page, 'supply.hardness').press('Enter');
    await page.locator('.banner.up').waitFor();
    await field(page, 'supply.coldest').fill('44 degF');
    await field(page, 'supply.coldest').press('Enter');
    assert.equal(await field(page, 'supply.hardness').inputValue(), '95 mg/L');
    await page.locator('.banner').getByText('2 edits wait').waitFor();

    await server.start();
    await page.locator('.banner:not(.up)').waitFor({ state: 'attached' });
    await page.locator('[data-saved]').waitFor();
    const { survey } = await server.api('GET', `jobs/${id}`);
    assert.equal(survey.supply.pressure, '61 psi', 'what was accepted before is still there');
    assert.equal(survey.supply.hardness, '95 mg/L');
    assert.equal(survey.supply.coldest, '44 degF');
});

test('edits that wait outlive the tab', async () => {
    await server.kill();
    await field(page, 'water.use').fill('104 degF');
    await field(page, 'water.use').press('Enter');
    await page.locator('.banner.up').waitFor();
    await page.goto('about:blank');
    await server.start();
    await openJob(page, server, id);
    await page.locator('[data-saved]').waitFor();
    const { survey } = await server.api('GET', `jobs/${id}`);
    assert.equal(survey.water.use, '104 degF');
    assert.deepEqual(page.complaints, []);
});

test('that a damaged file of jobs may hide some is said above the list', async () => {
    for (let n = 0; n < 120; ++n) await server.api('POST', 'jobs', { from: 'starter', name: `many ${n}` });
    await page.goto('about:blank');
    await server.kill('SIGTERM');
    const file = join(server.folder, 'jobs.db');
    const bytes = readFileSync(file);
    const at = bytes.indexOf('many 60');
    assert.ok(at > 0);
    bytes.fill(0, at - (at % 4096), at - (at % 4096) + 4096);
    writeFileSync(file, bytes);
    await server.start();
    await page.goto(server.address);
    await page.locator('.complaint', { hasText: 'The file of jobs is damaged' }).waitFor();
    assert.ok((await page.locator('.job-list li').count()) > 10, 'what is readable is still listed');
});
