// SPDX-License-Identifier: MIT
// The title block: the job and its chief figures, ruled off as on a sheet.

import { effect, signal, useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useLayoutEffect } from 'preact/hooks';
import { send, within } from '../api/client';
import type { Job, Status } from '../api/types';
import { showStatus } from '../proof/list';
import { Mark } from '../proof/status';
import { job, saving, walk } from '../state/job';
import { lost } from '../state/line';
import { go } from '../state/route';
import { markShown } from '../state/timing';
import { view, working } from '../state/view';
import { print, printNumber } from '../units/print';
import { words } from '../words';
import { Habits } from './habits';
import { KeysButton } from './keys';
import { showPart } from './parts';

const text = words.frame;

/** Saving that takes so long that it is worth saying, milliseconds. */
const noticeable = 300;
const slow = signal(false);
effect(() => {
    slow.value = false;
    if (!saving.value) return;
    const timer = setTimeout(() => (slow.value = true), noticeable);
    return () => clearTimeout(timer);
});

function Cell({ name, sub, wide, children }: { name: string; sub?: string; wide?: string; children: ComponentChildren }) {
    return (
        <div class={`cell ${wide ?? ''}`}>
            <span class="cell-name">
                {name}
                {sub && <span class="sub"> · {sub}</span>}
            </span>
            <div class="cell-body">{children}</div>
        </div>
    );
}

export function Title() {
    const now = view.value;
    const layout = now?.layout;
    useLayoutEffect(() => {
        if (now) markShown(now.revision);
    }, [now]);
    return (
        <header class="title">
            <Cell name={text.job} wide="job">
                <a class="home-link" href="#/" aria-label={words.jobs.back} title={words.jobs.back}>
                    ☰
                </a>
                <Name />
            </Cell>
            <Cell name={text.heaters} sub={layout ? text.spare(layout.needed, layout.spare) : undefined} wide="heaters">
                <b>{layout ? layout.heaters : now ? text.noPlant : '…'}</b>
            </Cell>
            <Cell name={text.peak} sub={now?.capacity?.flow && text.capacity(print(now.capacity.flow))} wide="peak">
                <b>{now?.demand ? print(now.demand.peak) : '…'}</b>
            </Cell>
            <Cell name={text.price} sub={now?.price ? text.hours(printNumber(Math.round(now.price.hours))) : undefined} wide="price">
                <b data-price>{now?.price ? print(now.price.total) : now ? '–' : '…'}</b>
            </Cell>
            <Cell name={text.tally} wide="tally">
                {(['fail', 'tight', 'refer', 'pass'] as Status[]).map((one) => (
                    <button
                        type="button"
                        key={one}
                        class={`sum ${one}`}
                        data-tally={one}
                        title={words.statusHelp[one]}
                        aria-label={`${now?.tally[one] ?? 0} ${words.statusMany[one]}`}
                        onClick={() => {
                            showStatus(one);
                            go({});
                            showPart('proof');
                        }}
                    >
                        <Mark status={one} />
                        {now?.tally[one] ?? '–'}
                    </button>
                ))}
            </Cell>
            <Cell name={`${text.revision} ${job.value?.revision ?? ''}`} wide="revision">
                <span class="state" role="status" data-saved={!saving.value || undefined}>
                    {lost.value && saving.value ? text.kept : slow.value ? text.saving : text.saved}
                    {working.value?.stage === 'wider' && <i class="pulse" aria-hidden="true" />}
                </span>
                <span class="group">
                    <button type="button" class="tool" disabled={!job.value?.['can-undo']} title={text.undoKey} onClick={() => void walk('undo')}>
                        {text.undo}
                    </button>
                    <button type="button" class="tool" disabled={!job.value?.['can-redo']} title={text.redoKey} onClick={() => void walk('redo')}>
                        {text.redo}
                    </button>
                </span>
            </Cell>
            <div class="cell habits-cell">
                <Habits />
                <KeysButton />
            </div>
        </header>
    );
}

/** The job's name, changed where it stands. */
function Name() {
    const typed = useSignal<string | null>(null);
    const name = job.value?.name ?? '';
    const take = async (next: string) => {
        typed.value = null;
        const present = job.value;
        if (!present || next.trim() === '' || next === present.name) return;
        try {
            const answer = await send<Job>('PATCH', within(present.id), { name: next.trim() });
            job.value = { ...job.value!, name: answer.name };
        } catch {
            // the name stays as it was
        }
    };
    return (
        <h1 class="job-title">
            <input class="field name" aria-label={words.jobs.rename} value={typed.value ?? name} title={name} onInput={(event) => (typed.value = event.currentTarget.value)}
                onKeyDown={(event) => {
                    if (event.key === 'Enter') event.currentTarget.blur();
                    if (event.key === 'Escape') {
                        typed.value = null;
                        event.currentTarget.value = name;
                    }
                }}
                onChange={(event) => void take(event.currentTarget.value)} />
        </h1>
    );
}
