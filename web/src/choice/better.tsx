// SPDX-License-Identifier: MIT
// A layout the wider choice found better than the one on the desk: offered, never put there unasked.

import { computed, signal } from '@preact/signals';
import { Refused, send, within } from '../api/client';
import { at } from '../api/paths';
import type { Candidate } from '../api/types';
import { job, notice, survey } from '../state/job';
import { candidates, chosen, followed } from '../state/view';
import { dollars } from '../units/print';
import { words } from '../words';
import { follow } from './follow';
import { layoutTitle } from './names';
import { bettering, candidateKey, type Better } from './rank';

const text = words.choice;
const left = signal<string | null>(null);

const better = computed<Better | null>(() => {
    const now = chosen.value;
    if (!now?.layout || !now.settled || followed.value || at(survey.value, ['preferences', 'place']) !== undefined) return null;
    const found = bettering(candidates.value, { layout: now.layout.id, heater: now.layout.heater });
    return found && candidateKey(found.one) !== left.value ? found : null;
});

async function take(one: Candidate): Promise<void> {
    const query = new URLSearchParams({ layout: one.layout, heater: one.heater });
    try {
        await send('POST', within(job.value!.id, `/take?${query}`));
    } catch (error) {
        notice.value = error instanceof Refused ? error.message : words.line.away;
    }
}

export function BetterFound() {
    const found = better.value;
    if (!found) return null;
    const { one, fewer, saves } = found;
    return (
        <p class="notice" data-better>
            {text.better(layoutTitle(one.layout), fewer, saves < 0 ? text.more(dollars(-saves)) : text.less(dollars(saves)))}{' '}
            <button type="button" class="act" onClick={() => void follow(one)}>
                {text.lookAt}
            </button>{' '}
            <button type="button" class="act strong" onClick={() => void take(one)}>
                {text.take}
            </button>{' '}
            <button type="button" class="act" onClick={() => (left.value = candidateKey(one))}>
                {text.leave}
            </button>
        </p>
    );
}
