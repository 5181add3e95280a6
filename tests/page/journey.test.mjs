// SPDX-License-Identifier: MIT
// From the starter to a package on the disk, and back through undo, as an estimator would.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { Server, field, makeJob, onPage, openJob, price, revision, typeInto } from './support.mjs';

const server = new Server();
let page;

onPage(server, (opened) => (page = opened));

test('a new job from the starter goes to a downloaded package', async () => {
    await page.getByLabel('Call it').fill('Mill Lane baths');
    await page.getByRole('button', { name: 'Begin', exact: true }).click();
    await page.locator('[data-price]').filter({ hasText: '$' }).waitFor();
    assert.equal(await page.getByLabel('Name of the job').inputValue(), 'Mill Lane baths');
    const cheap = await price(page);

    const fixture = page.locator('.part.given .fixtures input').first();
    const path = await fixture.getAttribute('data-field');
    await typeInto(page, path, '14');
    await page.waitForFunction((was) => Number(document.querySelector('[data-price]').textContent.replace(/\D/g, '')) > was, cheap);

    await page.locator('.below').getByRole('button', { name: 'Documents' }).click();
    for (const name of ['parts.csv', 'report.pdf']) {
        const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: `Download ${name}` }).click()]);
        const bytes = readFileSync(await download.path());
        assert.equal(download.suggestedFilename(), name);
        assert.ok(bytes.length > 200, `${name} holds something`);
        if (name.endsWith('.pdf')) assert.equal(bytes.subarray(0, 5).toString(), '%PDF-');
        else assert.match(bytes.toString(), /,/);
    }
});

test('undo and redo walk the revisions', async () => {
    const path = await page.locator('.part.given .fixtures input').first().getAttribute('data-field');
    assert.equal(await field(page, path).inputValue(), '14');
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.waitForFunction((p) => document.querySelector(`[data-field="${p}"]`).value !== '14', path);
    await page.getByRole('button', { name: 'Redo' }).click();
    await page.waitForFunction((p) => document.querySelector(`[data-field="${p}"]`).value === '14', path);
});

test('a wrong unit, an empty text and script text are told beside the field, and nothing is lost', async () => {
    await page.locator('[data-section="supply"]').scrollIntoViewIfNeeded();
    const there = field(page, 'supply.pressure');
    const slot = page.locator('.slot:has([data-field="supply.pressure"])');
    for (const text of ['60 furlongs', '900000 psi', '<script>alert(1)</script>']) {
        await there.fill(text);
        await there.press('Enter');
        const alert = slot.getByRole('alert');
        await alert.waitFor();
        assert.ok((await alert.textContent()).length > 10);
        assert.equal(await there.inputValue(), text, 'what was typed stands');
    }
    await there.press('Escape');
    assert.equal(await slot.getByRole('alert').count(), 0);
});

test('a number typed key by key is one edit', async () => {
    const was = await revision(page);
    const there = field(page, 'supply.pressure');
    await there.focus();
    await page.keyboard.press('Control+A');
    await page.keyboard.type('58 psi', { delay: 60 });
    assert.equal(await revision(page), was, 'nothing is sent before it is whole');
    await page.keyboard.press('Enter');
    await page.waitForFunction((n) => Number(document.querySelector('.cell.revision .cell-name').textContent.replace(/\D/g, '')) > n, was);
    await page.locator('[data-saved]').waitFor();
    await page.waitForTimeout(300);
    assert.equal(await revision(page), was + 1);
});

test('an assumed value is confirmed in one click', async () => {
    const id = await makeJob(server, 'starter');
    await openJob(page, server, id);
    const button = page.locator('.part.given button.confirm').first();
    const name = await button.getAttribute('aria-label');
    await button.click();
    await page.waitForFunction((label) => ![...document.querySelectorAll('.confirm')].some((one) => one.getAttribute('aria-label') === label), name);
});

test('the address leads back to a check and to a piece; back and forward work; units switch', async () => {
    const id = await makeJob(server);
    await openJob(page, server, id, '/check/water.hardness');
    await page.getByRole('heading', { name: /Hardness of the supply/ }).waitFor();
    await page.evaluate((job) => (location.hash = `#/job/${job}/piece/heater-3`), id);
    await page.locator('[data-piece="heater-3"]').waitFor();
    await page.goBack();
    await page.getByRole('heading', { name: /Hardness of the supply/ }).waitFor();
    await page.goForward();
    await page.locator('[data-piece="heater-3"]').waitFor();
    await page.getByRole('button', { name: 'SI', exact: true }).click();
    await page.locator('.cell.peak b').filter({ hasText: /L\/|m³/ }).waitFor();
    await page.getByRole('button', { name: 'US', exact: true }).click();
    await page.locator('.cell.peak b').filter({ hasText: 'gpm' }).waitFor();
});

test('jobs are copied, deleted and brought back; a broken file is told with its line', async () => {
    await page.goto(server.address);
    const lines = page.locator('.job-list').first().locator('> li');
    await lines.first().waitFor();
    const many = await lines.count();
    await lines.first().getByRole('button', { name: /^Copy/ }).click();
    await page.waitForFunction((n) => document.querySelectorAll('.job-list > li').length > n, many);
    await lines.first().getByRole('button', { name: /^Delete/ }).click();
    await page.locator('.gone').getByRole('button').click();
    await page.waitForFunction((n) => document.querySelectorAll('.job-list > li').length > n, many);
    await page.locator('input[type=file]').setInputFiles({ name: 'broken.toml', mimeType: 'text/plain', buffer: Buffer.from('[job]\ntitle = "x\n') });
    const told = page.getByRole('alert');
    await told.waitFor();
    assert.match(await told.textContent(), /broken\.toml:2/);
});

test('nothing was asked of any other address and nothing broke on the way', () => {
    assert.deepEqual(page.outside, []);
    assert.deepEqual(page.complaints, []);
});
