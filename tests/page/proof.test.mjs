// SPDX-License-Identifier: MIT
// A failing gas pipe mended from the proof; two alternatives compared.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Server, makeJob, onPage, openJob } from './support.mjs';

const server = new Server();
let page, id;

onPage(server, (opened) => (page = opened));

test('a check is opened, followed to its clause, and lights its pieces', async () => {
    id = await makeJob(server);
    await openJob(page, server, id);
    await page.getByLabel('Find a check').fill('gas pressure heater 7 all firing');
    await page.locator('a.check').first().click();
    await page.locator('.steps .formula').first().waitFor();
    assert.ok((await page.locator('.steps table.figures tr').count()) > 3, 'figures are put in');
    assert.ok((await page.locator('.sources li').count()) > 0, 'the source is named');
    await page.keyboard.press('Escape');
    await page.getByLabel('Find a check').waitFor();
});

test('a failing gas pipe is mended from the proof: tried, then kept', async () => {
    // so little pressure may be lost that no pipe of the usual sizes carries the gas
    id = await makeJob(server, 'example:hostel', [
        { path: ['gas', 'allowed-drop'], value: '0.05 inH2O' },
    ]);
    await openJob(page, server, id);
    await page.locator('[data-tally="fail"]').filter({ hasText: /[1-9]/ }).waitFor();
    const failing = Number(await page.locator('[data-tally="fail"]').innerText());
    await page.locator('[data-tally="fail"]').click();
    await page.locator('a.check.fail[data-check^="gas."]').first().click();
    const remedy = page.locator('.remedies').getByRole('button', { name: 'Try it' }).first();
    await remedy.click();
    const card = page.locator('[data-trial]');
    await card.waitFor();
    assert.match(await card.innerText(), /Price/);
    assert.ok((await card.locator('.changes li').count()) > 0, 'it says what else changes');
    const before = await server.api('GET', `jobs/${id}`);
    await card.getByRole('button', { name: 'Leave it' }).click();
    assert.equal((await server.api('GET', `jobs/${id}`)).revision, before.revision, 'trying stores nothing');
    await remedy.click();
    await card.getByRole('button', { name: 'Keep it' }).click();
    await page.waitForFunction((n) => Number(document.querySelector('[data-tally="fail"]').innerText) < n, failing);
    // the page shows what was tried at once; its revision follows when the server has stored it
    await page.waitForFunction((n) => Number(document.querySelector('.cell.revision .cell-name').textContent.replace(/\D/g, '')) > n, before.revision);
    assert.ok((await server.api('GET', `jobs/${id}`)).revision > before.revision);
});

test('two alternatives are looked at and compared line by line', async () => {
    id = await makeJob(server);
    await openJob(page, server, id);
    const rows = page.locator('.choice-table tbody tr');
    await page.waitForFunction(() => document.querySelectorAll('.choice-table tbody tr').length >= 2);
    const other = rows.filter({ hasNot: page.locator('.tag') }).first();
    await other.getByRole('button', { name: /^Look at/ }).click();
    await page.getByText('not at the chosen plant').waitFor();
    await page.getByRole('button', { name: 'Back to the chosen' }).click();
    await page.getByText('not at the chosen plant').waitFor({ state: 'detached' });
    await rows.nth(0).getByRole('button', { name: /^Pin/ }).click();
    await other.getByRole('button', { name: /^Pin/ }).click();
    await page.getByRole('button', { name: 'Compare the pinned two' }).click();
    const table = page.locator('[data-compare] table');
    await table.waitFor();
    const line = await table.locator('tr', { hasText: 'price' }).first().innerText();
    assert.match(line, /\$[\d,]+\s+\$[\d,]+/);
    assert.deepEqual(page.complaints, []);
});
