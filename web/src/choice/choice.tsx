// SPDX-License-Identifier: MIT
// The alternatives: a chart, a table, and two of them line by line.

import { signal } from '@preact/signals';
import { send, within } from '../api/client';
import type { Candidate } from '../api/types';
import { job } from '../state/job';
import { candidates, view, working } from '../state/view';
import { useKeptFocus } from '../parts';
import { print } from '../units/print';
import { words } from '../words';
import { Mark } from '../proof/status';
import { Chart } from './chart';
import { Compare, comparing } from './compare';
import { fetching, follow } from './follow';
import { heaterTitle, layoutTitle } from './names';
import { candidateKey, sameCandidate } from './rank';

const text = words.choice;
export const pins = signal<Candidate[]>([]);

function pin(one: Candidate): void {
    const there = pins.value.some((other) => sameCandidate(one, other));
    pins.value = there ? pins.value.filter((other) => !sameCandidate(one, other)) : [...pins.value, one].slice(-2);
}

export function Choice() {
    const list = candidates.value;
    const shown = view.value?.layout ? { layout: view.value.layout.id, heater: view.value.layout.heater } : null;
    const shortfalls = view.value?.shortfalls ?? [];
    if (comparing.value) return <Compare />;
    return (
        <div class="choice">
            {list.length === 0 && <p class="quiet-note">{working.value ? <Search /> : text.none}</p>}
            {list.length > 0 && (
                <div class={list.some((one) => one.total) ? 'choice-body' : undefined}>
                    {list.some((one) => one.total) && <Chart candidates={list} shown={shown} go={(one) => void follow(one)} />}
                    <div class="choice-table">
                        <p class="acts">
                            {pins.value.length === 2 ? (
                                <button type="button" class="act strong" onClick={() => (comparing.value = [pins.value[0]!, pins.value[1]!])}>
                                    {text.compare}
                                </button>
                            ) : (
                                <span class="soft">{text.pinTwo}</span>
                            )}
                            <Search />
                        </p>
                        <Table list={list} shown={shown} />
                    </div>
                </div>
            )}
            {shortfalls.length > 0 && (
                <details class="more">
                    <summary>{text.shortfalls}</summary>
                    <ul>
                        {shortfalls.map((one, index) => (
                            <li key={index}>
                                {one.what}. {one.remedy && <span class="soft">{one.remedy}.</span>}
                            </li>
                        ))}
                    </ul>
                </details>
            )}
        </div>
    );
}

/** How far the wider choice has come, with a way to give it up. */
function Search() {
    const now = working.value;
    const stop = () => void send('POST', within(job.value!.id, '/rest')).catch(() => {});
    return (
        <span class="soft search" role="status">
            {now?.stage === 'stopped' && text.stopped}
            {now?.stage === 'wider' && (
                <>
                    {text.working(now.done)}{' '}
                    <button type="button" class="tool small" onClick={stop}>
                        {text.stop}
                    </button>
                </>
            )}
        </span>
    );
}

function Table({ list, shown }: { list: Candidate[]; shown: { layout: string; heater: string } | null }) {
    const body = useKeptFocus<HTMLTableSectionElement>();
    return (
        <table class="rows">
            <thead>
                <tr>
                    <th scope="col">{text.layout}</th>
                    <th scope="col" class="num">{text.floor}</th>
                    <th scope="col" class="num">{text.cost}</th>
                    <th scope="col">{text.checks}</th>
                    <th scope="col"><span class="unseen">{text.pin}</span></th>
                </tr>
            </thead>
            <tbody ref={body}>
                {list.map((one) => {
                    const [layout, heater] = [layoutTitle(one.layout), heaterTitle(one.heater)];
                    const pinned = pins.value.some((other) => sameCandidate(one, other));
                    const here = sameCandidate(one, shown);
                    return (
                        <tr key={candidateKey(one)} class={here ? 'here' : undefined} aria-busy={fetching.value === candidateKey(one)}>
                            <th scope="row">
                                {one.refused ? (
                                    layout
                                ) : (
                                    <button type="button" class="link" data-hold={candidateKey(one)} aria-label={text.follow(layout, heater)} aria-pressed={here} onClick={() => void follow(one)}>
                                        {layout}
                                    </button>
                                )}
                                {one.chosen && <i class="tag">{text.chosen}</i>}
                                <br />
                                <span class="soft">
                                    {one.heaters} × {heater}
                                    {one.refused && `. ${text.refused}: ${one.refused}`}
                                </span>
                            </th>
                            <td class="num">{print(one['floor-length'])}</td>
                            <td class="num">{one.total ? print(one.total) : '–'}</td>
                            <td class="nowrap">
                                {one.tally ? (
                                    <>
                                        <Mark status={one.tally.fail > 0 ? 'fail' : 'pass'} /> {text.fails(one.tally.fail)}
                                    </>
                                ) : (
                                    <span class="soft">{one.refused ? '–' : '…'}</span>
                                )}
                            </td>
                            <td>
                                {!one.refused && (
                                    <button type="button" class="tool small" data-hold={`pin ${candidateKey(one)}`} aria-pressed={pinned} aria-label={text.pinName(layout, heater)} onClick={() => pin(one)}>
                                        {pinned ? text.unpin : text.pin}
                                    </button>
                                )}
                            </td>
                        </tr>
                    );
                })}
            </tbody>
        </table>
    );
}
