// SPDX-License-Identifier: MIT
// Without a pointer, without a large screen, and without eyes.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { test } from 'node:test';
import { Server, makeJob, onPage, openJob, revision } from './support.mjs';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const server = new Server();
let page, id;

onPage(server, async (opened) => {
    page = opened;
    id = await makeJob(server);
});

async function serious(where) {
    await page.evaluate(axe);
    const found = await page.evaluate(() => window.axe.run(document, { resultTypes: ['violations'] }));
    const bad = found.violations.filter((one) => one.impact === 'serious' || one.impact === 'critical');
    assert.deepEqual(bad.map((one) => `${one.id}: ${one.nodes.slice(0, 3).map((node) => node.target.join(' ')).join('; ')}`), [], where);
}

test('axe finds nothing serious, light and dark', async () => {
    await serious('the list of jobs');
    await openJob(page, server, id);
    await serious('the desk');
    await page.locator('.below').getByRole('button', { name: 'Demand' }).click();
    await page.locator('.middle').getByRole('button', { name: 'Plan', exact: true }).click();
    await page.locator('a.check').first().click();
    await page.locator('.sources li').first().waitFor();
    await serious('plan, demand and a check');
    await page.getByLabel('Light').selectOption('dark');
    await page.locator('.below').getByRole('button', { name: 'Documents' }).click();
    await serious('in the dark');
    await page.getByLabel('Light').selectOption('auto');
});

test('by the keyboard alone: begin a job, change a number, open a check, look round, undo', async () => {
    await page.goto(server.address);
    await page.getByLabel('Call it').focus();
    await page.keyboard.type('By keys');
    await page.keyboard.press('Enter');
    await page.locator('[data-price]').filter({ hasText: '$' }).waitFor();
    await page.keyboard.press('Alt+1');
    for (let turn = 0; turn < 60; ++turn) {
        if (await page.evaluate(() => document.activeElement?.dataset.field?.startsWith('building.fixtures.'))) break;
        await page.keyboard.press('Tab');
    }
    const was = await revision(page);
    const field = await page.evaluate(() => document.activeElement.dataset.field);
    await page.keyboard.press('Control+A');
    await page.keyboard.type('11');
    await page.keyboard.press('Enter');
    await page.waitForFunction((n) => Number(document.querySelector('.cell.revision .cell-name').textContent.replace(/\D/g, '')) > n, was);
    const onCheck = () => page.evaluate(() => document.activeElement?.classList.contains('check') ?? false);
    await page.keyboard.press('Alt+4');
    for (let turn = 0; turn < 12 && !(await onCheck()); ++turn) await page.keyboard.press('Tab');
    // views arrive meanwhile and put the checks in order anew
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowUp');
    assert.ok(await page.evaluate(() => document.activeElement.classList.contains('check')));
    assert.notEqual(await page.evaluate(() => getComputedStyle(document.activeElement).outlineStyle), 'none', 'the focus is seen');
    await page.keyboard.press('Enter');
    await page.locator('article.opened').waitFor();
    await page.keyboard.press('Escape');
    await page.keyboard.press('Alt+2');
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('4');
    await page.keyboard.press('Control+z');
    await page.waitForFunction((f) => document.querySelector(`[data-field="${f}"]`).value !== '11', field);
});

test('on a phone every part is reached, nothing runs off the side, and an edit is made', async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    await openJob(page, server, id);
    for (const part of ['Given', 'Room', 'Plan', 'Proof', 'Alternatives', 'Demand', 'Documents']) {
        await page.locator('.switch').getByRole('button', { name: part, exact: true }).click();
        const wide = await page.evaluate(() => document.documentElement.scrollWidth);
        assert.ok(wide <= 390, `${part} is ${wide} px wide`);
        await page.locator('.part.front').filter({ visible: true }).first().waitFor();
    }
    await page.locator('.switch').getByRole('button', { name: 'Given', exact: true }).click();
    const was = await revision(page);
    const field = page.locator('.part.given [data-field="supply.pressure"]');
    await field.fill('58 psi');
    await field.press('Enter');
    await page.waitForFunction((n) => Number(document.querySelector('.cell.revision .cell-name').textContent.replace(/\D/g, '')) > n, was);
    await serious('on a phone');
    assert.deepEqual(page.complaints, []);
});
