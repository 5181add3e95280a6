// SPDX-License-Identifier: MIT
// One check opened: figures, derivation, sources, what it rests on, what would mend it.

import { useSignal, useSignalEffect } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { Refused, get, within } from '../api/client';
import type { CheckWhole, Source } from '../api/types';
import { key } from '../api/paths';
import { job } from '../state/job';
import { go, route, write } from '../state/route';
import { units } from '../state/settings';
import { followed, view } from '../state/view';
import { percent } from '../units/print';
import { words } from '../words';
import { Confirm } from '../given/field';
import { Margin } from './margin';
import { Remedies } from './remedies';
import { Ending } from './status';
import { Steps } from './steps';

const text = words.proof;

function query(): string {
    const candidate = followed.value?.layout;
    const more = candidate ? `&layout=${encodeURIComponent(candidate.id)}&heater=${encodeURIComponent(candidate.heater)}` : '';
    return `?units=${units.value}&revision=${view.value?.revision ?? ''}${more}`;
}

export function Check({ id }: { id: string }) {
    const whole = useSignal<CheckWhole | null>(null);
    const wrong = useSignal<string | null>(null);
    const heading = useRef<HTMLHeadingElement>(null);
    useEffect(() => heading.current?.focus({ preventScroll: true }), [id]);
    useSignalEffect(() => {
        const present = route.value.job;
        if (!present || !view.value) return;
        const stop = new AbortController();
        get<CheckWhole>(within(present, `/checks/${encodeURIComponent(id)}${query()}`), stop.signal)
            .then((found) => {
                whole.value = found;
                wrong.value = null;
            })
            .catch((error) => {
                if (!stop.signal.aborted && error instanceof Refused) wrong.value = error.status === 404 ? text.missing : error.message;
            });
        return () => stop.abort();
    });
    const row = view.value?.checks.find((check) => check.id === id);
    const check = whole.value?.id === id ? whole.value : null;
    return (
        <article class="opened">
            <a class="back" href={write({ job: route.value.job })}>
                ← {text.back}
            </a>
            <h3 ref={heading} tabIndex={-1}>
                {check?.title ?? row?.title ?? id}
            </h3>
            {row && (
                <p class="verdict">
                    <Ending status={row.status} />
                    <Margin margin={row.margin} status={row.status} />
                    {row.margin !== undefined && <span>{text.margin(percent(row.margin))}</span>}
                </p>
            )}
            {row && (row.value || row.limit) && (
                <dl class="two">
                    <dt>{text.value}</dt>
                    <dd>{row.value ?? '–'}</dd>
                    <dt>{text.limitName}</dt>
                    <dd>
                        {text.limit[row.sense ?? ''] ?? ''} {row.limit ?? '–'}
                    </dd>
                </dl>
            )}
            <p>{row?.says ?? check?.says}</p>
            {wrong.value && !check && <p class="complaint">{wrong.value}</p>}
            {!check && !wrong.value && <p class="quiet-note">{text.loading}</p>}
            {check && <Rest check={check} />}
        </article>
    );
}

function Rest({ check }: { check: CheckWhole }) {
    return (
        <>
            {check.remedies && check.remedies.length > 0 && <Remedies remedies={check.remedies} />}
            {check.derivation.length > 0 && (
                <section>
                    <h4>{text.derivation}</h4>
                    <Steps steps={check.derivation} />
                </section>
            )}
            <section>
                <h4>{text.sources}</h4>
                <ul class="sources">
                    {check.source.map((source, index) => (
                        <li key={index}>{sourceSays(source)}</li>
                    ))}
                </ul>
            </section>
            {check.assumptions.length > 0 && <Assumptions check={check} />}
            {check.pieces.length > 0 && <Pieces ids={check.pieces} />}
            <p class="idline">{check.id}</p>
        </>
    );
}

function Assumptions({ check }: { check: CheckWhole }) {
    return (
        <section>
            <h4>{text.assumptions}</h4>
            <ul>
                {check.assumptions.map((one, index) => {
                    const path = one.path ? key(one.path) : one.field;
                    const open = job.value?.assumed.find((other) => key(other.path) === path);
                    return (
                        <li key={index}>
                            {one.why} {one.value && <b>{one.value}</b>} {open && <Confirm assumed={open} name={path} />}
                        </li>
                    );
                })}
            </ul>
        </section>
    );
}

function Pieces({ ids }: { ids: string[] }) {
    return (
        <section>
            <h4>{text.piecesTitle}</h4>
            <details class="more">
                <summary>{text.pieces(ids.length)}</summary>
                <ul class="pieces">
                    {ids.slice(0, 200).map((id) => (
                        <li key={id}>
                            <button type="button" class="link" onClick={() => go({ piece: id })}>
                                {id}
                            </button>
                        </li>
                    ))}
                </ul>
            </details>
        </section>
    );
}

export function sourceSays(source: Source): string {
    return source.says ?? [source.document, source.edition, source.clause, source.standing && `(${source.standing})`].filter(Boolean).join(' ');
}

