// SPDX-License-Identifier: MIT
// Every check, worst first; those alike under one line until opened.

import { signal, useComputed } from '@preact/signals';
import type { CheckRow, Status } from '../api/types';
import { litChecks, overCheck } from '../state/focus';
import { write, route } from '../state/route';
import { view } from '../state/view';
import { percent } from '../units/print';
import { words } from '../words';
import { Margin } from './margin';
import { countBy, families, type Family } from './order';
import { Ending, Mark } from './status';
import { memo, useKeptFocus } from '../parts';

const text = words.proof;
const service = signal<string | null>(null);
const status = signal<Status | null>(null);
const find = signal('');
const opened = signal<ReadonlySet<string>>(new Set());

export function showStatus(wanted: Status): void {
    status.value = wanted;
    service.value = null;
    find.value = '';
}

function turn(key: string): void {
    const next = new Set(opened.value);
    if (!next.delete(key)) next.add(key);
    opened.value = next;
}

function along(event: KeyboardEvent): void {
    if (event.key !== 'ArrowDown' && event.key !== 'ArrowUp') return;
    const lines = [...(event.currentTarget as HTMLElement).querySelectorAll<HTMLElement>('a.check, button.alike')];
    const now = lines.indexOf(document.activeElement as HTMLElement);
    const next = lines[now + (event.key === 'ArrowDown' ? 1 : -1)];
    if (!next) return;
    next.focus();
    event.preventDefault();
}

export function CheckList() {
    const checks = useComputed(() => view.value?.checks ?? []);
    const shown = useComputed(() => families(checks.value, { service: service.value, status: status.value, words: find.value }));
    const counts = useComputed(() => countBy(checks.value));
    const list = useKeptFocus<HTMLUListElement>();
    if (!view.value) return <p class="quiet-note">{text.empty}</p>;
    return (
        <>
            <div class="sieve">
                <input type="search" class="find" placeholder={text.find} aria-label={text.find} value={find.value} onInput={(event) => (find.value = event.currentTarget.value)} />
                <div role="group" aria-label={text.byStatus} class="chips">
                    {(['fail', 'tight', 'refer', 'pass'] as Status[]).map((one) => (
                        <button type="button" key={one} class="chip" aria-pressed={status.value === one} onClick={() => (status.value = status.value === one ? null : one)}>
                            <Mark status={one} /> {view.value!.tally[one]} {words.statusMany[one]}
                        </button>
                    ))}
                </div>
                <select class="field" aria-label={text.pages} value={service.value ?? ''} onChange={(event) => (service.value = event.currentTarget.value || null)}>
                    <option value="">
                        {text.all} ({checks.value.length})
                    </option>
                    {counts.value.map(([name, n]) => (
                        <option key={name} value={name}>
                            {text.services[name] ?? name} ({n})
                        </option>
                    ))}
                </select>
            </div>
            <ul class="checks" ref={list} onKeyDown={along} onMouseLeave={() => (overCheck.value = null)}>
                {shown.value.flatMap(linesOf)}
                {shown.value.length === 0 && <li class="quiet-note">{text.nothing}</li>}
            </ul>
        </>
    );
}

/** What a line shows of a check. */
const shows = (a: CheckRow, b: CheckRow): boolean =>
    a.id === b.id && a.status === b.status && a.value === b.value && a.limit === b.limit && a.margin === b.margin && a.title === b.title && a.assumed === b.assumed;

/** Each line under its check's own name, so that it stays the same line where the order changes. */
function linesOf(family: Family) {
    const open = opened.value.has(family.key);
    const checks = open ? family.checks : [family.worst];
    const lines = checks.map((check) => <Line key={check.id} check={check} />);
    if (family.checks.length === 1 || open) return lines;
    return [
        ...lines,
        <li key={`alike ${family.key}`}>
            <button type="button" class="alike" data-hold={`alike ${family.key}`} aria-expanded="false"
                aria-label={text.alikeOpen(family.checks.length, family.worst.title)} onClick={() => turn(family.key)}>
                {text.alike(family.checks.length)}
            </button>
        </li>,
    ];
}

const Line = memo(function Line({ check }: { check: CheckRow }) {
    const light = useComputed(() => litChecks.value.has(check.id)).value;
    return (
        <li>
            <a
                class={`check ${check.status}${light ? ' lit' : ''}`}
                data-check={check.id}
                data-hold={check.id}
                href={write({ job: route.value.job, check: check.id })}
                onMouseEnter={() => (overCheck.value = check.id)}
                onFocus={() => (overCheck.value = check.id)}
                onBlur={() => (overCheck.value = null)}
            >
                <Ending status={check.status} />
                <span class="title">
                    {check.title}
                    {check.assumed && (
                        <i class="rests" title={text.assumed}>
                            {' '}
                            *
                        </i>
                    )}
                </span>
                <span class="figures">
                    {check.value && <b>{check.value}</b>}
                    {check.limit && (
                        <span>
                            {' '}
                            {text.limit[check.sense ?? ''] ?? ''} {check.limit}
                        </span>
                    )}
                    {check.margin !== undefined && <span class="share">{percent(check.margin)}</span>}
                </span>
                <Margin margin={check.margin} status={check.status} />
            </a>
        </li>
    );
}, (a, b) => shows(a.check, b.check));
