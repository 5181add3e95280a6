// SPDX-License-Identifier: MIT
// What can be taken away, and what each is for.

import { signal, useSignal, useSignalEffect } from '@preact/signals';
import { ask, get, within } from '../api/client';
import type { DocumentRow } from '../api/types';
import { job, vocabulary } from '../state/job';
import { followed, view } from '../state/view';
import { units } from '../state/settings';
import { words } from '../words';

const text = words.papers;
const paper = signal('tabloid');

export function Papers() {
    const rows = useSignal<DocumentRow[]>([]);
    useSignalEffect(() => {
        const id = job.value?.id;
        const revision = view.value?.revision;
        if (!id || revision === undefined) return;
        get<{ documents: DocumentRow[] }>(within(id, '/documents')).then(
            (found) => (rows.value = found.documents),
            () => (rows.value = vocabulary.value?.documents ?? []),
        );
    });
    const present = view.value;
    if (!present?.layout) return <p class="quiet-note">{text.none}</p>;
    return (
        <div class="papers">
            <p class="acts">
                <span>{text.of(present.revision)}</span>
                <label>
                    {text.paper}{' '}
                    <select class="field" value={paper.value} onChange={(event) => (paper.value = event.currentTarget.value)}>
                        {Object.entries(text.papers).map(([key, name]) => (
                            <option key={key} value={key}>
                                {name}
                            </option>
                        ))}
                    </select>
                </label>
            </p>
            <ul>
                {rows.value.map((row) => (
                    <Row key={row.name} row={row} />
                ))}
            </ul>
        </div>
    );
}

function query(): string {
    const more = new URLSearchParams({ units: units.value, paper: paper.value });
    const layout = followed.value?.layout;
    if (layout) {
        more.set('layout', layout.id);
        more.set('heater', layout.heater);
    }
    return more.toString();
}

function Row({ row }: { row: DocumentRow }) {
    const busy = useSignal(false);
    const wrong = useSignal('');
    const fetchIt = async () => {
        if (busy.value || !job.value) return;
        busy.value = true;
        wrong.value = '';
        try {
            const answer = await ask('GET', within(job.value.id, `/documents/${encodeURIComponent(row.name)}?${query()}`));
            save(await answer.blob(), row.name);
        } catch (error) {
            wrong.value = text.failed(error instanceof Error && error.message ? error.message : words.line.lost);
        }
        busy.value = false;
    };
    return (
        <li>
            <button type="button" class="act" data-document={row.name} aria-busy={busy.value} aria-label={text.download(row.name)} onClick={() => void fetchIt()}>
                {row.name}
            </button>
            <span>
                {row.says}{' '}
                <span class="soft" role="status">
                    {busy.value ? text.making : row.size ? text.sizes(row.size) : ''}
                </span>
                {wrong.value && <span class="complaint">{wrong.value}</span>}
            </span>
        </li>
    );
}

function save(blob: Blob, name: string): void {
    const address = URL.createObjectURL(blob);
    const link = document.createElement('a');
    link.href = address;
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
