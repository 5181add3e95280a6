// SPDX-License-Identifier: MIT
// A remedy tried: what it would change, before anything is kept.

import { computed, signal, useSignal } from '@preact/signals';
import { Refused, send, within } from '../api/client';
import { readView } from '../api/read';
import type { Remedy, Status, Tried } from '../api/types';
import { edit, job } from '../state/job';
import { units } from '../state/settings';
import { chosen, followed } from '../state/view';
import { dollars, print } from '../units/print';
import { words } from '../words';
import { Mark } from './status';

const text = words.proof;

interface Trial {
    remedy: Remedy;
    answer: Tried;
}

/** The remedy on trial; the whole page shows its plant meanwhile. */
export const trial = signal<Trial | null>(null);

export const onTrial = computed(() => trial.value !== null && trial.value.answer.view === followed.value);

export function leaveTrial(): void {
    trial.value = null;
    followed.value = null;
}

export function Remedies({ remedies }: { remedies: Remedy[] }) {
    const busy = useSignal<number | null>(null);
    const wrong = useSignal<string | null>(null);

    const tryIt = async (remedy: Remedy, index: number) => {
        const present = job.value;
        if (!present) return;
        busy.value = index;
        wrong.value = null;
        try {
            const answer = await send<any>('POST', within(present.id, `/try?units=${units.value}`), { revision: present.revision, edits: remedy.edits });
            const read: Tried = { view: readView(answer.view), changed: answer.changed };
            trial.value = { remedy, answer: read };
            followed.value = read.view;
        } catch (error) {
            wrong.value = error instanceof Refused ? error.message : words.line.lost;
        }
        busy.value = null;
    };

    return (
        <section class="remedies">
            <h4>{text.remedies}</h4>
            <ul>
                {remedies.map((remedy, index) => (
                    <li key={index}>
                        <span>{remedy.says}</span>{' '}
                        {remedy.edits.length > 0 && (
                            <button type="button" class="act" disabled={busy.value !== null} onClick={() => void tryIt(remedy, index)}>
                                {busy.value === index ? text.trying : text.tryIt}
                            </button>
                        )}
                    </li>
                ))}
            </ul>
            {wrong.value && (
                <p class="complaint" role="alert">
                    {wrong.value}
                </p>
            )}
        </section>
    );
}

function Ended({ status }: { status: Status | null }) {
    return status ? (
        <span class={`ending ${status}`}>
            <Mark status={status} />
            {words.status[status]}
        </span>
    ) : (
        <span class="soft">{text.goes}</span>
    );
}

/** What the remedy on trial changes, with keep and leave. */
export function TrialCard() {
    const now = trial.value;
    if (!now || !onTrial.value) return null;
    const { changed } = now.answer;
    const by = changed.by?.value ?? 0;
    const total = changed.total ?? now.answer.view.price?.total;
    return (
        <section class="trial" aria-label={text.tried} data-trial>
            <h4>{text.tried}</h4>
            <p>{now.remedy.says}</p>
            {total && (
                <p>
                    <b>{text.costs(`${by < 0 ? '−' : '+'}${dollars(Math.abs(by))}`, print(total))}</b>
                </p>
            )}
            <p>{changed.checks.length === 0 ? text.noChange : text.changes(changed.checks.length)}</p>
            <ul class="changes">
                {changed.checks.slice(0, 40).map((one) => (
                    <li key={one.id}>
                        <span>{one.title}</span>
                        <span class="turn">
                            {one.was ? <Ended status={one.was} /> : <span class="soft">{text.appears}</span>} → <Ended status={one.now} />
                        </span>
                    </li>
                ))}
            </ul>
            <p class="acts">
                <button
                    type="button"
                    class="act strong"
                    onClick={() => {
                        const edits = now.remedy.edits;
                        chosen.value = now.answer.view;
                        leaveTrial();
                        void edit(edits);
                    }}
                >
                    {text.keep}
                </button>{' '}
                <button type="button" class="act" onClick={leaveTrial}>
                    {text.leave}
                </button>
            </p>
        </section>
    );
}
