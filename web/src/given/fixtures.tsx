// SPDX-License-Identifier: MIT
// The fixtures that take hot water, counted.

import { at } from '../api/paths';
import type { Json } from '../api/types';
import { edit, survey, vocabulary } from '../state/job';
import { spoken, words } from '../words';
import { Field } from './field';
import { nodeAt } from './schema';

const text = words.given;

export function Fixtures() {
    const counted = (at(survey.value, ['building', 'fixtures']) as { [name: string]: Json } | undefined) ?? {};
    const names = Object.keys(counted);
    const all = Object.keys(nodeAt(vocabulary.value?.schema, ['building', 'fixtures'])?.properties ?? {});
    return (
        <ul class="entries fixtures">
            {names.map((name) => (
                <li key={name}>
                    <Field field={`building.fixtures.${name}`} name={spoken(name)} />
                    <span class="what">{spoken(name)}</span>
                    <span class="busy">
                        {text.busy} <Field field={`building.busy.${name}`} name={`${spoken(name)}, ${text.busyAfter}`} />
                    </span>
                    <button type="button" class="drop" aria-label={text.remove(spoken(name))} title={text.remove(spoken(name))} onClick={() => drop(name)}>
                        ×
                    </button>
                </li>
            ))}
            <li class="adding">
                <select class="field open" aria-label={text.addFixture} value="" onChange={(event) => add(event.currentTarget)}>
                    <option value="">+ {text.addFixture}</option>
                    {all
                        .filter((name) => !names.includes(name))
                        .map((name) => (
                            <option key={name} value={name}>
                                {spoken(name)}
                            </option>
                        ))}
                </select>
            </li>
        </ul>
    );
}

function add(choice: HTMLSelectElement): void {
    if (choice.value) void edit([{ path: ['building', 'fixtures', choice.value], value: 1 }]);
    choice.value = '';
}

function drop(name: string): void {
    const busy = at(survey.value, ['building', 'busy', name]);
    void edit([
        { path: ['building', 'fixtures', name], remove: true },
        ...(busy === undefined ? [] : [{ path: ['building', 'busy', name], remove: true }]),
    ]);
}
