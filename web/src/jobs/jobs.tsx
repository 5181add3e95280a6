// SPDX-License-Identifier: MIT
// The jobs: begin one, open one, keep one.

import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { JobRow } from '../api/types';
import { vocabulary } from '../state/job';
import { write } from '../state/route';
import { words } from '../words';
import { Habits } from '../frame/habits';
import { begin, complaint, copy, damaged, deleted, jobs, justDeleted, load, openFile, remove, restore } from './store';

const text = words.jobs;

const when = (time: string) => {
    const at = new Date(time);
    return Number.isNaN(at.getTime()) ? time : at.toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' });
};

export function Jobs() {
    useEffect(() => {
        document.title = `${text.title} · ${words.name}`;
        void load();
    }, []);
    const list = jobs.value;
    return (
        <div class="home">
            <header class="home-head">
                <h1>{words.name}</h1>
                <p>{words.tagline}</p>
                <Habits />
            </header>
            <main id="main">
                <Begin />
                {complaint.value && (
                    <p class="complaint" role="alert">
                        {complaint.value}
                    </p>
                )}
                <section aria-label={text.title}>
                    <h2>{text.title}</h2>
                    {damaged.value && (
                        <p class="complaint" role="alert">
                            {text.damaged}
                        </p>
                    )}
                    {justDeleted.value && (
                        <p class="gone" role="status">
                            {text.removed(justDeleted.value.name)}{' '}
                            <button type="button" class="act" onClick={() => void restore(justDeleted.value!)}>
                                {text.restore}
                            </button>
                        </p>
                    )}
                    {list?.length === 0 && <p class="quiet-note">{text.none}</p>}
                    <ul class="job-list">
                        {list?.map((row) => (
                            <JobLine key={row.id} row={row} />
                        ))}
                    </ul>
                    {deleted.value.length > 0 && (
                        <details class="more">
                            <summary>
                                {text.bin} ({deleted.value.length})
                            </summary>
                            <ul class="job-list">
                                {deleted.value.map((row) => (
                                    <li key={row.id}>
                                        <span>{row.name}</span>
                                        <button type="button" class="act" onClick={() => void restore(row)}>
                                            {text.restore}
                                        </button>
                                    </li>
                                ))}
                            </ul>
                        </details>
                    )}
                </section>
            </main>
        </div>
    );
}

function Begin() {
    const from = useSignal('starter');
    const name = useSignal('');
    return (
        <section aria-label={text.begin}>
            <h2>{text.begin}</h2>
            <form
                class="begin"
                onSubmit={(event) => {
                    event.preventDefault();
                    void begin(from.value, name.value);
                }}
            >
                <label>
                    {text.from}{' '}
                    <select class="field" value={from.value} onChange={(event) => (from.value = event.currentTarget.value)}>
                        <option value="starter">{text.starter}</option>
                        {vocabulary.value?.examples.map((one) => (
                            <option key={one.name} value={`example:${one.name}`}>
                                {text.example(one.title)}
                            </option>
                        ))}
                    </select>
                </label>
                <label>
                    {text.called}{' '}
                    <input class="field" size={26} placeholder={text.calledHint} value={name.value} onInput={(event) => (name.value = event.currentTarget.value)} />
                </label>
                <button type="submit" class="act strong">
                    {text.make}
                </button>
                <label class="file act" title={text.openTitle}>
                    {text.openFile}
                    <input
                        type="file"
                        accept=".toml,text/plain"
                        onChange={(event) => {
                            const file = event.currentTarget.files?.[0];
                            event.currentTarget.value = '';
                            if (file) void openFile(file);
                        }}
                    />
                </label>
            </form>
        </section>
    );
}

function JobLine({ row }: { row: JobRow }) {
    return (
        <li>
            <a class="job-name" href={write({ job: row.id })}>
                {row.name}
            </a>
            <span class="soft">
                {text.changed(when(row.changed))}, {text.revision(row.revision)}
            </span>
            <span class="acts">
                <a class="act" href={`api/jobs/${encodeURIComponent(row.id)}/survey.toml`} download aria-label={`${text.save}: ${row.name}`}>
                    {text.save}
                </a>
                <button type="button" class="act" aria-label={`${text.copy}: ${row.name}`} onClick={() => void copy(row)}>
                    {text.copy}
                </button>
                <button type="button" class="act" aria-label={`${text.remove}: ${row.name}`} onClick={() => void remove(row)}>
                    {text.remove}
                </button>
            </span>
        </li>
    );
}
