// SPDX-License-Identifier: MIT
// Every kind of field is given what it cannot take: a wrong unit, nothing, far too much, script text. Nothing runs, nothing is kept that
// the survey's reader refuses, and what is wrong is said beside the field.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Server, field, makeJob, onPage, openJob } from './support.mjs';

const server = new Server();
let page, id;

onPage(server, async (opened) => {
    page = opened;
    await page.exposeFunction('ran', () => page.complaints.push('script text ran'));
    id = await makeJob(server, 'example:hostel');
    await openJob(page, server, id);
    await page.evaluate(() => document.querySelectorAll('.part.given details').forEach((one) => (one.open = true)));
});

const script = `"><img src=x onerror="ran()"><script>ran()</script>`;
const huge = '9'.repeat(10_000);

/** Refused: said beside the field. Kept: stored as it stands. Out: an empty field takes the key out. */
const table = [
    // a quantity
    ['supply.pressure', '60 furlongs', 'refused'],
    ['supply.pressure', '60 gpm', 'refused'],
    ['supply.pressure', '-5 psi', 'refused'],
    ['supply.pressure', huge, 'refused'],
    ['supply.pressure', `${huge} psi`, 'refused'],
    ['supply.pressure', script, 'refused'],
    ['supply.pressure', '', 'out'],
    // a temperature, a length within a list
    ['water.distribution', '130 psi', 'refused'],
    ['room.door.0.width', '3 psi', 'refused'],
    ['room.door.0.width', huge, 'refused'],
    // a whole number
    ['building.fixtures.shower-public', '12 ft', 'refused'],
    ['building.fixtures.shower-public', '1.5', 'refused'],
    ['building.fixtures.shower-public', '-1', 'refused'],
    ['building.fixtures.shower-public', huge, 'refused'],
    ['building.fixtures.shower-public', script, 'refused'],
    // a number
    ['gas.specific-gravity', '0.6 psi', 'refused'],
    ['gas.specific-gravity', huge, 'refused'],
    ['gas.specific-gravity', script, 'refused'],
    ['gas.specific-gravity', 'NaN', 'refused'],
    // a share
    ['building.percentile', '250 %', 'refused'],
    ['building.percentile', script, 'refused'],
    // text: what can be seen is text, and stays text
    ['job.title', script, 'kept'],
    ['job.prepared-by', `${script}\u202e`, 'refused'],
    ['job.prepared-by', `\u001b]0;${script}\u0007`, 'refused'],
    ['job.title', huge, 'refused'],
    // a nominal size
    ['connections.gas.size', 'as large as it gets', 'refused'],
    ['connections.gas.size', huge, 'refused'],
    // the name of a place
    ['preferences.place', script, 'kept'],
];

const at = (tree, path) => path.split('.').reduce((node, part) => node?.[part], tree);

for (const [path, text, ends] of table) {
    const shown = text.length > 40 ? `${text.slice(0, 12)}… (${text.length})` : text;
    test(`${path} given ${JSON.stringify(shown)} is ${ends}`, async () => {
        const there = path.startsWith('preferences.place') ? page.locator(`[data-field="${path}"]`) : field(page, path);
        if ((await there.count()) === 0 && path === 'preferences.place') await page.getByRole('button', { name: 'Move the plant' }).click();
        const slot = page.locator(`.slot:has([data-field="${path}"])`).first();
        const before = at((await server.api('GET', `jobs/${id}`)).survey, path);
        await there.first().fill(text);
        await there.first().press('Enter');
        const alert = slot.getByRole('alert');
        await Promise.race([alert.waitFor(), page.waitForFunction((p) => !document.querySelector(`[data-field="${p}"]`)?.classList.contains('sent'), path)]);
        await page.locator('[data-saved]').waitFor();
        const now = at((await server.api('GET', `jobs/${id}`)).survey, path);
        const refused = (await alert.count()) > 0;
        assert.equal(refused, ends === 'refused', `it holds ${JSON.stringify(now)}, and says ${refused && (await alert.innerText())}`);
        if (refused) {
            const says = await alert.innerText();
            assert.ok(says.length > 10 && says.length < 400, says.slice(0, 500));
            assert.deepEqual(now, before, 'nothing is kept');
            assert.ok((await alert.boundingBox()).width < 420, 'and it stays within the page');
            await there.first().press('Escape');
            await alert.waitFor({ state: 'detached' });
        } else {
            assert.deepEqual(now, ends === 'out' ? undefined : text.trim());
            await page.getByRole('button', { name: 'Undo' }).click();
            await page.waitForFunction(
                async ([job, p, was]) => JSON.stringify(p.split('.').reduce((node, part) => node?.[part], (await (await fetch(`api/jobs/${job}`)).json()).survey)) === was,
                [id, path, JSON.stringify(before)],
            );
        }
        assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= 1440, 'nothing runs off the side');
        assert.deepEqual(page.complaints, []);
    });
}

test('the job’s own name and a file’s name are text too', async () => {
    await page.getByLabel('Name of the job').fill(script);
    await page.keyboard.press('Enter');
    await page.waitForFunction(([job, text]) => fetch(`api/jobs/${job}`).then((r) => r.json()).then((j) => j.name === text), [id, script]);
    await page.goto(server.address);
    await page.getByRole('link', { name: script, exact: true }).waitFor();
    await page.locator('input[type=file]').setInputFiles({ name: `${script}.toml`, mimeType: 'text/plain', buffer: Buffer.from(script) });
    await page.getByRole('alert').waitFor();
    await page.waitForTimeout(300);
    assert.deepEqual(page.complaints, []);
});
